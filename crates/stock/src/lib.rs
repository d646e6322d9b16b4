//! `stock`: what can be bought, as tables. Takes the embedded TOML tables (and a user's own table laid
//! over them), gives typed rows and answers questions of them: which wires of a family, which sleeve
//! for this bundle, which current a rule set allows. Every row carries its source and its basis.
//!
//! Generic classes only. Absent from this room: plans, the vehicle, any figure written in Rust, any
//! judgement of whether a part suits a circuit.
//!
//! ```
//! use stock::{Family, Stock};
//! let stock = Stock::embedded();
//! let wires = stock.conductors_of(Family::Metric, "PVC", "thin");
//! let law = stock.currents("33 CFR 183.425").unwrap();
//! let wire = wires.iter().find(|w| w.id == "2.5 mm² thin-wall PVC").unwrap();
//! let allowed = law.allowed(wire.size, wire.area, 105.0, false, 1).unwrap();
//! assert_eq!(allowed.note, "33 CFR 183.425: 14 AWG, 105 °C insulation, 35 A (the largest row within 2.5 mm² of copper)");
//! ```

mod origin;
mod range;
mod row;

mod ampacity;
mod conductor;
mod connector;
mod fuse;
mod grommet;
mod insulation;
mod joint;
mod pull;
mod relay;
mod sleeve;
mod supply_class;
mod switch;
mod tab;
mod terminal;
mod torque;

mod allowed;
mod find;
mod list;
mod price;
mod shelf;

pub use allowed::Allowed;
pub use ampacity::{AmpacityRow, AmpacityTable, BundleFactor};
pub use conductor::{Conductor, Family};
pub use connector::{Connector, SealRange};
pub use find::Onto;
pub use fuse::{FuseGate, FuseKind, FuseRating};
pub use grommet::Grommet;
pub use insulation::Insulation;
pub use joint::JointKind;
pub use list::{Listing, WHATS, list};
pub use origin::Origin;
pub use pull::Pull;
pub use relay::{ContactRating, RelayKind};
pub use shelf::Stock;
pub use sleeve::Sleeve;
pub use supply_class::SupplyClass;
pub use switch::{ContactLoad, Derating, SwitchKind};
pub use tab::Tab;
pub use terminal::Terminal;
pub use torque::Torque;

#[cfg(test)]
mod tests;
