//! Numbers of a row as quantities; the key carries the unit: `bore_mm`, `cold_mohm`.

use super::Row;
use crate::range;
use quantity::{
    Area, ElectricCurrent, ElectricPotential, Length, Quantity, ThermodynamicTemperature, amperes,
    celsius, millimetres, volts,
};

impl Row<'_, '_> {
    /// A length in mm.
    pub fn mm(&self, key: &'static str) -> Option<Length> {
        self.number(key, range::MM).map(millimetres)
    }

    /// A length in mm that must be there.
    pub fn need_mm(&self, key: &'static str) -> Length {
        millimetres(self.need(key, range::MM))
    }

    /// A copper area in mm² that must be there.
    pub fn need_mm2(&self, key: &'static str) -> Area {
        Area::from_si(self.need(key, range::MM2) * 1e-6)
    }

    /// A current in A.
    pub fn amps(&self, key: &'static str) -> Option<ElectricCurrent> {
        self.number(key, range::AMPS).map(amperes)
    }

    /// A current in A that must be there.
    pub fn need_amps(&self, key: &'static str) -> ElectricCurrent {
        amperes(self.need(key, range::AMPS))
    }

    /// A voltage in V that must be there.
    pub fn need_volts(&self, key: &'static str) -> ElectricPotential {
        volts(self.need(key, range::VOLTS))
    }

    /// A temperature in °C that must be there.
    pub fn need_celsius(&self, key: &'static str) -> ThermodynamicTemperature {
        celsius(self.need(key, range::CELSIUS))
    }

    /// A resistance in mΩ that must be there, as Ω.
    pub fn need_mohm(&self, key: &'static str) -> f64 {
        self.need(key, range::MOHM) * 1e-3
    }

    /// A resistance in mΩ, as Ω.
    pub fn mohm(&self, key: &'static str) -> Option<f64> {
        self.number(key, range::MOHM).map(|m| m * 1e-3)
    }
}
