//! Supply-voltage classes: the letter on a piece of equipment, and the voltages that it works between.

use crate::Origin;
use crate::row::{Kind, Row};
use quantity::{ElectricPotential, volts};

/// One class.
#[derive(Clone, Debug, PartialEq)]
pub struct SupplyClass {
    /// Its letter.
    pub code: String,
    /// Nominal voltage of the vehicle, V.
    pub volts: u32,
    /// Works from this voltage.
    pub lowest: ElectricPotential,
    /// Works up to this voltage.
    pub highest: ElectricPotential,
    /// Origin.
    pub origin: Origin,
}

impl Kind for SupplyClass {
    const KEY: &'static str = "supply_class";

    fn read(row: &Row) -> Option<Self> {
        row.made(Self {
            code: row.need_text("code", "C"),
            volts: row.need_whole("volts", 12..=24),
            lowest: volts(row.need("lowest", 1.0..=48.0)),
            highest: volts(row.need("highest", 1.0..=60.0)),
            origin: row.origin(),
        })
    }

    fn same(&self, other: &Self) -> bool {
        (&self.code, self.volts) == (&other.code, other.volts)
    }
}
