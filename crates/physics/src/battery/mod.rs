//! A battery at rest, at its terminals, in the cold, and by its label.
//!
//! | file | law |
//! |---|---|
//! | `rested` | rested voltage from charge and temperature, and charge from rested voltage |
//! | `resistance` | internal resistance from the cranking rating, by charge and temperature |
//! | `cold` | what the cold leaves of capacity and of cranking, and where the acid freezes |
//! | `knee` | what it resists besides when nearly empty |
//! | `label` | ampere-hours from reserve minutes, load-test current from cranking amperes |

mod cold;
mod knee;
mod label;
mod resistance;
mod rested;

pub use cold::{capacity_factor, cranking_factor, freezing_kelvin};
pub use knee::knee_ohms;
pub use label::{amp_hours_of_reserve, load_test_amps, load_test_volts};
pub use resistance::{internal_ohms, short_circuit_amps};
pub use rested::{charge_of_volts, open_circuit_volts, rested_shift_volts};

/// How a battery is made.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Chemistry {
    /// Lead plates in free acid.
    Flooded,
    /// Lead plates, acid in glass mat.
    Agm,
    /// Lead plates, acid as gel.
    Gel,
    /// Lithium iron phosphate, four cells to a 12 V block.
    LithiumIron,
}
