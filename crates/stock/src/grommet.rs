//! Grommets: the hole to cut in a panel, and the bundle that then goes through.

use crate::Origin;
use crate::range;
use crate::row::{Kind, Row};
use quantity::Length;

/// One size of grommet.
#[derive(Clone, Debug, PartialEq)]
pub struct Grommet {
    /// Bore.
    pub bore: Length,
    /// Largest bundle that goes through with room.
    pub bundle_max: Length,
    /// Hole to cut, which is the diameter of its groove.
    pub hole: Length,
    /// Thinnest panel it holds on.
    pub panel_min: Length,
    /// Thickest panel.
    pub panel_max: Length,
    /// Origin.
    pub origin: Origin,
}

impl Kind for Grommet {
    const KEY: &'static str = "grommet";

    fn read(row: &Row) -> Option<Self> {
        let bore = row.need_mm("bore_mm");
        let room = row.number("room", range::FACTOR).unwrap_or(1.0);
        row.made(Self {
            bore,
            bundle_max: bore / room,
            hole: row.need_mm("hole_mm"),
            panel_min: row.need_mm("panel_min_mm"),
            panel_max: row.need_mm("panel_max_mm"),
            origin: row.origin(),
        })
    }

    fn same(&self, other: &Self) -> bool {
        (self.bore, self.hole, self.panel_max) == (other.bore, other.hole, other.panel_max)
    }
}
