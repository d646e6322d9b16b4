//! Fuses: a class with its opening gates, and the ratings it is sold in. A fuse is a band, not a number.

use crate::row::{Kind, Row};
use crate::{Origin, range};
use quantity::{Area, ElectricCurrent, ElectricPotential, Length};

/// Between which times a fuse opens at one multiple of its rating.
#[derive(Clone, Debug, PartialEq)]
pub struct FuseGate {
    /// Current over rating.
    pub multiple: f64,
    /// It does not open sooner, s.
    pub min_s: f64,
    /// It has opened by then, s. `None`: no opening is promised at this current.
    pub max_s: Option<f64>,
    /// Origin.
    pub origin: Origin,
}

/// One rating of a class.
#[derive(Clone, Debug, PartialEq)]
pub struct FuseRating {
    /// Rated current.
    pub amps: ElectricCurrent,
    /// Body colour; "none" where the printed rating alone tells.
    pub colour: String,
    /// Of the colour and of the rating being sold.
    pub colour_origin: Origin,
    /// Resistance when cold, Ω.
    pub cold_ohms: f64,
    /// Least and most cold resistance, Ω, where a spread is known.
    pub cold_spread: Option<(f64, f64)>,
    /// Of the resistance.
    pub resistance_origin: Origin,
    /// Average melting I²t, A²s: not a guaranteed limit.
    pub melt_i2t: Option<f64>,
    /// Price of one, if the user's table says it.
    pub price: Option<f64>,
}

/// A class of fuse.
#[derive(Clone, Debug, PartialEq)]
pub struct FuseKind {
    /// "miniature blade", "medium blade", "high-current blade", "bolt-in strip M5", "bolt-in strip M8".
    pub name: String,
    /// Rated voltage.
    pub volts: ElectricPotential,
    /// Most current it can break.
    pub breaking: ElectricCurrent,
    /// Opening gates by rising multiple. Where documents differ, the least minimum and the greatest
    /// maximum are kept.
    pub gates: Vec<FuseGate>,
    /// Ratings, rising.
    pub ratings: Vec<FuseRating>,
    /// Points (°C, factor on the rating), rising in temperature; see [`FuseKind::ambient`].
    pub ambient_factor: Vec<(f64, f64)>,
    /// Of the ambient factor.
    pub ambient_origin: Origin,
    /// Share of the rating that may flow continuously.
    pub continuous_factor: f64,
    /// Of the continuous factor.
    pub continuous_origin: Origin,
    /// Resistance at rated current over the cold one.
    pub hot_ratio: f64,
    /// Of that ratio.
    pub hot_origin: Origin,
    /// Largest wire that its holder takes.
    pub max_wire_area: Area,
    /// Insulation to strip for the contact of its way, from memory; none where it goes on studs.
    pub strip: Option<Length>,
    /// Of the largest wire.
    pub wire_origin: Origin,
    /// Of voltage and breaking capacity.
    pub origin: Origin,
}

impl FuseKind {
    /// The stud that a fuse held by nuts goes onto: "M5"; none of one that is plugged.
    pub fn stud(&self) -> Option<&str> {
        self.name.strip_prefix("bolt-in strip ")
    }

    /// Factor on the rating in a place at `celsius`: straight lines between the points, level below
    /// the first, and the last slope carried on above the last (never below zero).
    pub fn ambient(&self, celsius: f64) -> f64 {
        let points = &self.ambient_factor;
        let Some(&(first, least)) = points.first() else {
            return 1.0;
        };
        if celsius <= first || points.len() < 2 {
            return least;
        }
        let right = points
            .iter()
            .position(|p| p.0 >= celsius)
            .unwrap_or(points.len() - 1);
        let ((t0, f0), (t1, f1)) = (points[right - 1], points[right]);
        (f0 + (f1 - f0) * (celsius - t0) / (t1 - t0)).max(0.0)
    }

    /// The least multiple of the rating at which an opening is promised at all.
    pub fn least_promised(&self) -> Option<f64> {
        self.gates
            .iter()
            .find(|g| g.max_s.is_some())
            .map(|g| g.multiple)
    }

    /// The row of one rating.
    pub fn rating(&self, amps: f64) -> Option<&FuseRating> {
        use quantity::Quantity;
        self.ratings
            .iter()
            .find(|r| (r.amps.si() - amps).abs() < 1e-9)
    }
}

fn gate(row: &Row) -> Option<FuseGate> {
    row.made(FuseGate {
        multiple: row.need("multiple", range::MULTIPLE),
        min_s: row.need("min_s", range::SECONDS),
        max_s: row.number("max_s", range::SECONDS),
        origin: row.origin(),
    })
}

fn rating(row: &Row, cold: &Origin) -> Option<FuseRating> {
    let low = row.mohm("cold_low_mohm");
    let high = row.mohm("cold_high_mohm");
    row.made(FuseRating {
        amps: row.need_amps("amps"),
        colour: row.text("colour").unwrap_or_else(|| "none".to_owned()),
        colour_origin: row.part_origin("colour_source", "colour_basis"),
        cold_ohms: row.need_mohm("cold_mohm"),
        cold_spread: low.zip(high),
        resistance_origin: row.part_origin_or("cold_source", "cold_basis", cold),
        melt_i2t: row.number("melt_a2s", range::I2T),
        price: row.number("price", range::PRICE),
    })
}

impl Kind for FuseKind {
    const KEY: &'static str = "fuse";

    fn read(row: &Row) -> Option<Self> {
        let origin = row.origin();
        let celsius = row.numbers("ambient_c", range::CELSIUS);
        let factors = row.numbers("ambient_factor", range::FACTOR);
        if celsius.len() != factors.len() || !celsius.is_sorted_by(|a, b| a < b) {
            let mend = "give one ambient_factor for each ambient_c, and the temperatures rising";
            row.refuse(
                "uneven-lists",
                "its ambient factors don't match their temperatures",
                mend,
            );
        }
        let mut gates = row.children("gates", &origin, gate);
        gates.sort_by(|a, b| a.multiple.total_cmp(&b.multiple));
        let colour = row.part_origin("rating_source", "rating_basis");
        let cold = row.part_origin("cold_source", "cold_basis");
        let mut ratings = row.children("ratings", &colour, |r| rating(r, &cold));
        ratings.sort_by(|a, b| {
            a.amps
                .partial_cmp(&b.amps)
                .unwrap_or(std::cmp::Ordering::Equal)
        });
        row.made(Self {
            name: row.need_text("name", "miniature blade"),
            volts: row.need_volts("volts"),
            breaking: row.need_amps("breaking_amps"),
            gates,
            ratings,
            ambient_factor: celsius.into_iter().zip(factors).collect(),
            ambient_origin: row.part_origin("ambient_source", "ambient_basis"),
            continuous_factor: row.need("continuous_factor", range::FACTOR),
            continuous_origin: row.part_origin("continuous_source", "continuous_basis"),
            hot_ratio: row.need("hot_ratio", range::FACTOR),
            hot_origin: row.part_origin("hot_source", "hot_basis"),
            max_wire_area: row.need_mm2("max_wire_mm2"),
            strip: row.mm("strip_mm"),
            wire_origin: row.part_origin("wire_source", "wire_basis"),
            origin,
        })
    }

    fn same(&self, other: &Self) -> bool {
        self.name == other.name
    }
}
