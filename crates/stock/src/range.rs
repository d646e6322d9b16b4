//! What each kind of number in a table may be: the least and the most, each defined once. Outside
//! these a number is a slip of the pen.

use std::ops::RangeInclusive;

/// A length or diameter of a part, mm.
pub(crate) const MM: RangeInclusive<f64> = 0.0..=500.0;
/// A copper area, mm².
pub(crate) const MM2: RangeInclusive<f64> = 0.01..=500.0;
/// A current, A.
pub(crate) const AMPS: RangeInclusive<f64> = 0.01..=100_000.0;
/// A cell of a table of allowed currents, A; zero stands for "no figure".
pub(crate) const CELL: RangeInclusive<f64> = 0.0..=2000.0;
/// A voltage, V.
pub(crate) const VOLTS: RangeInclusive<f64> = 0.1..=100.0;
/// A nominal system voltage, V.
pub(crate) const SYSTEM: RangeInclusive<u32> = 6..=48;
/// A temperature, °C.
pub(crate) const CELSIUS: RangeInclusive<f64> = -80.0..=400.0;
/// Resistance of a metre of wire, mΩ/m.
pub(crate) const MOHM_PER_M: RangeInclusive<f64> = 0.01..=1000.0;
/// Resistance of a joint, contact or fuse, mΩ.
pub(crate) const MOHM: RangeInclusive<f64> = 0.001..=10_000.0;
/// Resistance of a coil or of what stands across it, Ω.
pub(crate) const OHMS: RangeInclusive<f64> = 0.1..=100_000.0;
/// A force, N.
/// Torque, N·m.
pub(crate) const NEWTON_METRE: RangeInclusive<f64> = 0.1..=200.0;
pub(crate) const NEWTON: RangeInclusive<f64> = 1.0..=10_000.0;
/// A time, s.
pub(crate) const SECONDS: RangeInclusive<f64> = 0.0001..=1e7;
/// A multiple of a fuse's rating.
pub(crate) const MULTIPLE: RangeInclusive<f64> = 1.0..=20.0;
/// A factor on a current, or a ratio of diameters; zero stands for "not allowed".
pub(crate) const FACTOR: RangeInclusive<f64> = 0.0..=20.0;
/// Melting I²t of a fuse, A²s.
pub(crate) const I2T: RangeInclusive<f64> = 0.01..=1e8;
/// Thermal conductivity, W/m·K.
pub(crate) const CONDUCTIVITY: RangeInclusive<f64> = 0.01..=5.0;
/// Emissivity.
pub(crate) const EMISSIVITY: RangeInclusive<f64> = 0.05..=1.0;
/// Heat capacity of a volume, J/m³·K.
pub(crate) const VOLUME_HEAT: RangeInclusive<f64> = 1e5..=1e7;
/// A price, in whatever money the user counts.
pub(crate) const PRICE: RangeInclusive<f64> = 0.0..=100_000.0;
/// A number of ways, positions or wires.
pub(crate) const COUNT: RangeInclusive<u32> = 1..=1000;
