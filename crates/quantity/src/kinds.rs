//! Which quantities there are, and the units each may be written in.

use crate::show::{figures, trim_zeros};
use uom::si::f64::{
    Area, ElectricCharge, ElectricCurrent, ElectricPotential, ElectricalResistance, Length, Power,
    Ratio, TemperatureInterval, ThermodynamicTemperature, Time,
};

/// One unit as people write it: its spellings, and how it becomes SI (`si = value · scale + offset`).
pub struct Unit {
    /// Accepted spellings; the first is the one messages use.
    pub spellings: &'static [&'static str],
    /// Factor to the SI unit.
    pub scale: f64,
    /// Added after scaling; zero for all but temperatures.
    pub offset: f64,
}

const fn unit(spellings: &'static [&'static str], scale: f64) -> Unit {
    Unit {
        spellings,
        scale,
        offset: 0.0,
    }
}

/// A typed quantity that can be read from text and shown to a person.
pub trait Quantity: Copy + PartialOrd {
    /// What it is, with its article: "a length".
    const WHAT: &'static str;
    /// A well-formed example for messages.
    const EXAMPLE: &'static str;
    /// Every unit it may be written in; the first is the commonest.
    const UNITS: &'static [Unit];
    /// From the SI value (K for temperatures, A·s for charge, 1 for ratios).
    fn from_si(v: f64) -> Self;
    /// The SI value.
    fn si(self) -> f64;
    /// In the unit a person thinks in.
    fn show(self) -> String;
}

macro_rules! quantity {
    ($type:ident, $what:literal, $example:literal, $units:expr, $show:expr) => {
        impl Quantity for $type {
            const WHAT: &'static str = $what;
            const EXAMPLE: &'static str = $example;
            const UNITS: &'static [Unit] = $units;
            fn from_si(v: f64) -> Self {
                Self {
                    dimension: std::marker::PhantomData,
                    units: std::marker::PhantomData,
                    value: v,
                }
            }
            fn si(self) -> f64 {
                self.value
            }
            fn show(self) -> String {
                let f: fn(f64) -> String = $show;
                f(self.value)
            }
        }
    };
}

quantity!(
    Length,
    "a length",
    "1.9 m",
    &[
        unit(&["m", "metre", "metres", "meter", "meters"], 1.0),
        unit(&["mm", "millimetre", "millimetres"], 1e-3),
        unit(&["cm", "centimetre", "centimetres"], 1e-2),
        unit(&["ft", "foot", "feet", "'", "′"], 0.3048),
        unit(&["in", "inch", "inches", "\"", "″"], 0.0254),
    ],
    |v| {
        if v.abs() < 0.1 {
            format!("{} mm", figures(v * 1e3, 3))
        } else {
            format!("{} m", trim_zeros(&format!("{v:.2}")))
        }
    }
);

quantity!(
    Area,
    "a cross-section",
    "2.5 mm²",
    &[
        unit(&["mm²", "mm2", "mm^2", "sqmm", "qmm"], 1e-6),
        unit(&["cmil", "cmils"], 5.067_074_79e-10),
    ],
    |v| format!("{} mm²", trim_zeros(&format!("{:.2}", v * 1e6)))
);

quantity!(
    ElectricCurrent,
    "a current",
    "15 A",
    &[
        unit(&["A", "amp", "amps", "ampere", "amperes"], 1.0),
        unit(&["mA"], 1e-3)
    ],
    |v| {
        if v != 0.0 && v.abs() < 0.1 {
            format!("{} mA", figures(v * 1e3, 3))
        } else {
            format!("{} A", figures(v, 3))
        }
    }
);

quantity!(
    ElectricPotential,
    "a voltage",
    "13.8 V",
    &[unit(&["V", "volt", "volts"], 1.0), unit(&["mV"], 1e-3)],
    |v| {
        if v != 0.0 && v.abs() < 0.1 {
            format!("{} mV", figures(v * 1e3, 3))
        } else {
            format!("{} V", trim_zeros(&format!("{v:.2}")))
        }
    }
);

quantity!(
    ElectricalResistance,
    "a resistance",
    "5 mΩ",
    &[
        unit(&["mΩ", "mohm", "mohms", "milliohm"], 1e-3),
        unit(&["Ω", "ohm", "ohms"], 1.0),
    ],
    |v| {
        if v.abs() < 1.0 {
            format!("{} mΩ", figures(v * 1e3, 3))
        } else {
            format!("{} Ω", figures(v, 3))
        }
    }
);

quantity!(
    Power,
    "a power",
    "55 W",
    &[
        unit(&["W", "watt", "watts"], 1.0),
        unit(&["kW"], 1e3),
        unit(&["mW"], 1e-3)
    ],
    |v| format!("{} W", figures(v, 3))
);

quantity!(
    ElectricCharge,
    "a battery capacity",
    "74 Ah",
    &[
        unit(&["Ah", "amp hours", "amp-hours"], 3600.0),
        unit(&["mAh"], 3.6)
    ],
    |v| format!("{} Ah", figures(v / 3600.0, 3))
);

quantity!(
    Ratio,
    "a percentage",
    "5 %",
    &[unit(&["%", "percent", "per cent"], 1e-2)],
    |v| format!("{} %", figures(v * 100.0, 3))
);

quantity!(
    Time,
    "a time",
    "15 min",
    &[
        unit(&["min", "minute", "minutes"], 60.0),
        unit(&["s", "sec", "second", "seconds"], 1.0),
        unit(&["h", "hour", "hours"], 3600.0),
        unit(&["days", "day", "d"], 86_400.0),
        unit(&["ms"], 1e-3),
    ],
    crate::show::time
);

quantity!(
    TemperatureInterval,
    "a temperature difference",
    "10 K",
    &[unit(&["K", "°C", "C"], 1.0), unit(&["°F", "F"], 5.0 / 9.0)],
    |v| format!("{} K", figures(v, 3))
);

quantity!(
    ThermodynamicTemperature,
    "a temperature",
    "80 °C",
    &[
        Unit {
            spellings: &["°C", "C", "degC", "deg C", "ºC"],
            scale: 1.0,
            offset: 273.15
        },
        Unit {
            spellings: &["°F", "F", "degF", "deg F", "ºF"],
            scale: 5.0 / 9.0,
            offset: 273.15 - 160.0 / 9.0
        },
    ],
    |v| format!("{} °C", trim_zeros(&format!("{:.1}", v - 273.15)))
);
