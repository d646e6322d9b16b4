//! How thick each bundle is: the least that its wires can be drawn up to, and what hands make of it. What it is put through
//! and into goes by the latter; the heat of a bundle goes by the bench rule, which needs no search.

use crate::design::Design;
use physics::packing::pack;
use quantity::{Length, Quantity, metres};
use rayon::prelude::*;

/// The wires of a stretch, drawn up.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Bundle {
    /// The least diameter.
    pub least: Length,
    /// As hands lay it; a wire alone is as thick as it is.
    pub laid: Length,
}

/// Tries of the search together, over the wires: some ten milliseconds a bundle.
const TRIES: usize = 1200;
/// And the fewest and the most.
const FEWEST: usize = 16;
const MOST: usize = 60;
/// Of a first look: it comes out some hundredths too thick.
const AT_ONCE: usize = 2;

/// By stretch.
pub(crate) fn all(d: &Design) -> Vec<Bundle> {
    let by_hand = d.limits.value("hand-laid");
    let bundle = |stretch: &loom::LoomStretch| {
        let radius = |w: &loom::WireId| d.conductor(*w).outside_d.si() / 2.0;
        let radii: Vec<f64> = stretch.wires.iter().map(radius).collect();
        let tries = match d.habits.survey {
            true => (TRIES / radii.len().max(1)).clamp(FEWEST, MOST),
            false => AT_ONCE,
        };
        let least = 2.0 * pack(&radii, tries).radius;
        let laid = if radii.len() > 1 {
            least * by_hand
        } else {
            least
        };
        Bundle {
            least: metres(least),
            laid: metres(laid),
        }
    };
    d.loom.stretches.par_iter().map(bundle).collect()
}
