//! How hard a sound crimp can be pulled, by the wire's copper.

use crate::Origin;
use crate::range;
use crate::row::{Kind, Row};
use quantity::Area;

/// A row of the table.
#[derive(Clone, Debug, PartialEq)]
pub struct Pull {
    /// "16".
    pub awg: String,
    /// Copper area of that gauge.
    pub area: Area,
    /// Force that a crimp stands for a minute, N.
    pub newton: f64,
    /// Origin.
    pub origin: Origin,
}

impl Kind for Pull {
    const KEY: &'static str = "pull";

    fn read(row: &Row) -> Option<Self> {
        row.made(Self {
            awg: row.need_text("awg", "16"),
            area: row.need_mm2("area_mm2"),
            newton: row.need("newton", range::NEWTON),
            origin: row.origin(),
        })
    }

    fn same(&self, other: &Self) -> bool {
        self.awg == other.awg
    }
}
