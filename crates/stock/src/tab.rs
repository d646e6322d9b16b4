//! What a push-on tab bears continuously, by its width and the wire on it: a thicker wire leads more heat away.

use crate::Origin;
use crate::range;
use crate::row::{Kind, Row};
use quantity::{Area, ElectricCurrent};

/// A row of the table.
#[derive(Clone, Debug, PartialEq)]
pub struct Tab {
    /// Width, mm.
    pub tab_mm: f64,
    /// The wire's gauge, as the table has it.
    pub awg: String,
    /// Its copper.
    pub area: Area,
    /// Continuous current for a rise of 30 K.
    pub amps: ElectricCurrent,
    /// Origin.
    pub origin: Origin,
}

impl Kind for Tab {
    const KEY: &'static str = "tab";

    fn read(row: &Row) -> Option<Self> {
        row.made(Self {
            tab_mm: row.need("tab_mm", range::MM),
            awg: row.need_text("awg", "14"),
            area: row.need_mm2("wire_mm2"),
            amps: row.need_amps("amps"),
            origin: row.origin(),
        })
    }

    fn same(&self, other: &Self) -> bool {
        (self.tab_mm, &self.awg) == (other.tab_mm, &other.awg)
    }
}
