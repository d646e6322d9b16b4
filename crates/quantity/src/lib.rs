//! `quantity`: text ↔ typed quantities. Takes what a person writes ("2 ft 4 in", "2.5 mm²",
//! "12 AWG") and gives `uom` types; formats them back in the units the trade thinks in.
//!
//! Absent from this room: files, plans, anything electrical beyond the units themselves.

mod bound;
mod gauge;
mod kinds;
mod read;
mod show;
mod size;

pub use bound::{Bound, bounds};
pub use gauge::Gauge;
pub use kinds::{Quantity, Unit};
pub use read::{Misread, read};
pub use show::{figures, trim_zeros};
pub use size::WireSize;
pub use uom::si::f64::{
    Area, ElectricCharge, ElectricCurrent, ElectricPotential, ElectricalResistance, Length, Power,
    Ratio, TemperatureInterval, ThermodynamicTemperature, Time,
};

/// A length from metres.
pub fn metres(v: f64) -> Length {
    Length::from_si(v)
}

/// A length from millimetres.
pub fn millimetres(v: f64) -> Length {
    Length::from_si(v * 1e-3)
}

/// A current from amperes.
pub fn amperes(v: f64) -> ElectricCurrent {
    ElectricCurrent::from_si(v)
}

/// A voltage from volts.
pub fn volts(v: f64) -> ElectricPotential {
    ElectricPotential::from_si(v)
}

/// A resistance from ohms.
pub fn ohms(v: f64) -> ElectricalResistance {
    ElectricalResistance::from_si(v)
}

/// A power from watts.
pub fn watts(v: f64) -> Power {
    Power::from_si(v)
}

/// A temperature from degrees Celsius.
pub fn celsius(v: f64) -> ThermodynamicTemperature {
    ThermodynamicTemperature::from_si(v + 273.15)
}

/// A ratio from per cent.
pub fn percent(v: f64) -> Ratio {
    Ratio::from_si(v * 0.01)
}

/// A time from seconds.
pub fn seconds(v: f64) -> Time {
    Time::from_si(v)
}

/// A time from hours.
pub fn hours(v: f64) -> Time {
    Time::from_si(v * 3600.0)
}

/// A temperature as degrees Celsius.
pub fn in_celsius(t: ThermodynamicTemperature) -> f64 {
    t.si() - 273.15
}

/// An area as square millimetres.
pub fn in_mm2(a: Area) -> f64 {
    a.si() * 1e6
}
