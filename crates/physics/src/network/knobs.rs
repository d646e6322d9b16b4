//! Every number that steers the solver, each with its reason.

/// Steering of [`super::solve`].
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Knobs {
    /// Imbalance allowed at a node, over the sum of the currents that meet there. 1e-9 is a
    /// microamp in a kiloamp: no meter sees it, and power then balances as well.
    pub tolerance: f64,
    /// Plain Newton passes before the next rung. Circuits of lamps, relays and drivers take 4 to
    /// 12; one that needs more is wandering.
    pub newton_passes: usize,
    /// A step is shortened while the slope along it has turned to more than this part of what it
    /// was. A half keeps full steps nearly always, yet never lets a step end higher than it began
    /// on a smooth valley.
    pub overshoot: f64,
    /// Most shortenings of one step. Each aims at the valley floor along the step, so eight leave
    /// it far narrower than any law's rounded corner.
    pub trims: usize,
    /// Passes of settling. Damping changes by `settle_factor` a pass, so 300 cross the whole range
    /// of conductances in a vehicle (1e-6 S to 1e6 S) many times over.
    pub settle_passes: usize,
    /// Damping that settling begins with, S: as a capacitor on every node. About what a lamp
    /// conducts.
    pub settle_siemens: f64,
    /// Most that a voltage moves in one pass of settling, V. A driver's fade is half a volt wide,
    /// and past it lies a hill that a longer step could leap.
    pub settle_volts: f64,
    /// How much damping grows after a bad step and shrinks after a good one.
    pub settle_factor: f64,
    /// Steps that sources are raised in, when settling from a standing start failed.
    pub source_steps: u32,
}

impl Default for Knobs {
    fn default() -> Self {
        Self {
            tolerance: 1e-9,
            newton_passes: 40,
            overshoot: 0.5,
            trims: 8,
            settle_passes: 300,
            settle_siemens: 1.0,
            settle_volts: 2.0,
            settle_factor: 4.0,
            source_steps: 16,
        }
    }
}
