//! Sleeves: shrink, convolute, braid and PVC, with the bundles that each fits.

use crate::Origin;
use crate::range;
use crate::row::{Kind, Row};
use quantity::{Length, ThermodynamicTemperature};

/// One size of sleeve.
#[derive(Clone, Debug, PartialEq)]
pub struct Sleeve {
    /// "plain shrink", "adhesive shrink", "convolute", "braided", "PVC sleeve".
    pub kind: String,
    /// Unique: "adhesive shrink 12.7 mm to 4.2 mm".
    pub name: String,
    /// Bore as supplied.
    pub bore: Length,
    /// Bore after free shrinking, for shrink sleeve.
    pub recovered: Option<Length>,
    /// Wall: after shrinking for shrink sleeve, over the ridges for convolute.
    pub wall: Length,
    /// Smallest bundle that it holds (zero where any smaller will do).
    pub bundle_min: Length,
    /// Largest bundle that goes in with room.
    pub bundle_max: Length,
    /// Of the room kept between bundle and bore.
    pub fit_origin: Origin,
    /// What it stands continuously.
    pub limit: ThermodynamicTemperature,
    /// Of that limit.
    pub limit_origin: Origin,
    /// Origin.
    pub origin: Origin,
}

impl Sleeve {
    /// Outside diameter on a bundle of this diameter: shrink lies close, the rest keep their bore.
    pub fn outside_on(&self, bundle: Length) -> Length {
        let bore = match self.recovered {
            Some(least) if bundle < least => least,
            Some(_) => bundle,
            None if bundle > self.bore => bundle,
            None => self.bore,
        };
        bore + self.wall + self.wall
    }
}

impl Kind for Sleeve {
    const KEY: &'static str = "sleeve";

    fn read(row: &Row) -> Option<Self> {
        let bore = row.need_mm("bore_mm");
        let recovered = row.mm("recovered_mm");
        let room = row.number("room", range::FACTOR).unwrap_or(1.0);
        let grip = row.number("grip", range::FACTOR).unwrap_or(1.0);
        let least = row.mm("bundle_min_mm").or(recovered.map(|r| r / grip));
        let most = row.mm("bundle_max_mm").unwrap_or(bore / room);
        row.made(Self {
            kind: row.need_text("kind", "convolute"),
            name: row.need_text("name", "convolute 10 mm"),
            bore,
            recovered,
            wall: row.need_mm("wall_mm"),
            bundle_min: least.unwrap_or_default(),
            bundle_max: most,
            fit_origin: row.part_origin("fit_source", "fit_basis"),
            limit: row.need_celsius("limit_c"),
            limit_origin: row.part_origin("limit_source", "limit_basis"),
            origin: row.origin(),
        })
    }

    fn same(&self, other: &Self) -> bool {
        self.name == other.name
    }
}
