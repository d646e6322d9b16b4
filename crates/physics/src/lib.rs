//! The laws: numbers in SI in, numbers in SI out. Takes small `Copy` structs of `f64`, gives the
//! same; knows ids, never names, files, text, stock or any unit but SI. Three laws are of labels and
//! keep the label's units: ampere-hours, hours and minutes of a battery, revolutions a minute.
//!
//! Signs: temperatures are in kelvin. A current is positive from terminal `a` to terminal `b`
//! *through* the element, and an element absorbs power where `volts * amps` is positive. Heat is
//! positive outwards, per metre of wire. Ranges are stated, not enforced: a caller that passes a
//! negative diameter gets nonsense, not a panic.
//!
//! | module | law |
//! |---|---|
//! | [`conductor`] | resistance of copper by temperature and strand lay |
//! | [`air`], [`convection`], [`radiation`], [`shell`] | the ways heat leaves a cylinder |
//! | [`wire_heat`] | one wire in still air |
//! | [`mixing`], [`bundle`] | many wires in one sleeve |
//! | [`adiabatic`] | a short circuit, too quick for heat to leave |
//! | [`network`] | currents and voltages of a whole circuit |
//! | [`warming`], [`ageing`] | heat in time, and how long insulation bears it |
//! | [`time_constant`] | how slowly a wire warms, and a load that comes and goes |
//! | [`battery`], [`alternator`] | supplies |
//! | [`discharge`], [`charging`] | how long a battery lasts, how fast it takes charge back |
//! | [`normal`] | values that are not exactly known, and hang together |
//! | [`coil`], [`lamp`], [`motor`], [`capacitor`] | loads at start and in the heat |
//! | [`fuse_clock`] | when a fuse opens |
//! | [`root`], [`table`] | where a function of one number crosses zero; lines between rows |

pub mod adiabatic;
pub mod ageing;
pub mod air;
pub mod alternator;
pub mod battery;
pub mod bundle;
pub mod capacitor;
pub mod charging;
pub mod coil;
pub mod conductor;
pub mod convection;
pub mod discharge;
pub mod fuse_clock;
pub mod lamp;
pub mod mixing;
pub mod motor;
pub mod network;
pub mod normal;
pub mod packing;
pub mod radiation;
pub mod root;
pub mod shell;
pub mod table;
pub mod time_constant;
pub mod warming;
pub mod wire_heat;
