//! Insulations: how hot each may be, and how it passes heat on.

use crate::row::{Kind, Row};
use crate::{Origin, range};
use quantity::ThermodynamicTemperature;

/// One class of insulation.
#[derive(Clone, Debug, PartialEq)]
pub struct Insulation {
    /// "PVC", "PVC 80", "cross-linked", "boat PVC".
    pub name: String,
    /// Class temperature: what it stands continuously.
    pub limit: ThermodynamicTemperature,
    /// Coldest temperature at which it may be used.
    pub lowest: ThermodynamicTemperature,
    /// End temperature of a short circuit of a few seconds.
    pub damage: ThermodynamicTemperature,
    /// Column of a table of allowed currents, °C.
    pub table_column_c: f64,
    /// Thermal conductivity, W/m·K.
    pub k_w_mk: f64,
    /// Emissivity of its surface.
    pub emissivity: f64,
    /// Heat capacity of a volume, J/m³·K.
    pub heat_j_m3k: f64,
    /// Of the temperatures.
    pub origin: Origin,
    /// Of conductivity, emissivity and heat capacity.
    pub heat_origin: Origin,
}

impl Kind for Insulation {
    const KEY: &'static str = "insulation";

    fn read(row: &Row) -> Option<Self> {
        row.made(Self {
            name: row.need_text("name", "PVC"),
            limit: row.need_celsius("limit_c"),
            lowest: row.need_celsius("lowest_c"),
            damage: row.need_celsius("damage_c"),
            table_column_c: row.need("table_column_c", range::CELSIUS),
            k_w_mk: row.need("k_w_mk", range::CONDUCTIVITY),
            emissivity: row.need("emissivity", range::EMISSIVITY),
            heat_j_m3k: row.need("heat_j_m3k", range::VOLUME_HEAT),
            origin: row.origin(),
            heat_origin: row.part_origin("heat_source", "heat_basis"),
        })
    }

    fn same(&self, other: &Self) -> bool {
        self.name == other.name
    }
}
