//! Heat in time: how wires warm while current flows, and when their fuses open.
//!
//! A piece of wire in one surrounding is a [`Section`]: a chain of shells from the copper outwards,
//! each with the heat that it takes up, each joined to the next by what heat crosses. A [`Run`] takes
//! the wires of a circuit, each as its sections, and the clocks of its fuses, and follows them through
//! time as one stiff system: `c dT/dt = I² R(T) + heat from beside − heat onwards`.
//!
//! | file | step |
//! |---|---|
//! | `shells` | radii of the shells of insulation |
//! | [`section`] | a chain of shells, its rates and their slopes |
//! | `alone`, `laid` | the chain of a wire in air, and in the middle of a bundle |
//! | `rest` | the temperatures at which a chain came to rest in normal use |
//! | [`run`] | wires and clocks through time, with events |
//! | `equations` | the system in the form that the integrator asks for |
//!
//! | symbol | meaning | unit |
//! |---|---|---|
//! | T | temperature of a shell | K |
//! | c | heat that a metre of a shell takes up | J/(m·K) |
//! | I, R | current of a wire, its resistance per metre at its copper's temperature | A, Ω/m |
//!
//! Range: times from a millisecond up (heat crosses copper at once). Copper does not melt, insulation
//! neither melts nor burns: past a damage limit a run is stopped, not continued. Where current stays,
//! a run ends at what [`crate::bundle`] and [`crate::wire_heat`] say, to a hundredth of the rise. Source:
//! conduction by control volumes around the shells' radii; the method of trade.md. Checked against a
//! fine radial finite-difference solution, a two-dimensional finite-element one and `ngspice`.

mod alone;
mod equations;
mod laid;
mod rest;
pub mod run;
pub mod section;
mod shells;
#[cfg(test)]
mod tests;

pub use alone::alone;
pub use laid::{Beside, Cover, laid};
pub use rest::rest;
pub use run::{Clock, Currents, End, Piece, Run, Sample};
pub use section::Section;

use crate::wire_heat::WireBody;

/// A wire as heat in time sees it.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Warmed {
    /// The wire.
    pub body: WireBody,
    /// Area of its copper, m².
    pub copper_m2: f64,
    /// Heat that its insulation takes up, J/(m³·K).
    pub insulation_j_m3k: f64,
    /// Its resistance at 20 °C, Ω/m.
    pub r20_per_m: f64,
}

impl Warmed {
    /// Heat that a metre takes up for each kelvin, J/(m·K).
    pub fn capacity(&self) -> f64 {
        let (d, over) = (self.body.conductor_d, self.body.outside_d);
        let ring = std::f64::consts::FRAC_PI_4 * (over * over - d * d).max(0.0);
        self.copper() + self.insulation_j_m3k * ring
    }

    /// Heat that a metre of its copper takes up, J/(m·K).
    fn copper(&self) -> f64 {
        crate::time_constant::COPPER_J_M3K * self.copper_m2
    }
}
