//! The roomiest loom: every wire as thick as its ends take. Nothing loses less, no bundle is cooler. What breaks there
//! breaks everywhere; what it carries bounds what any other carries.

use crate::design::{Choice, Design};
use crate::settle::Settled;
use crate::size::settle_all;
use crate::state::State;

/// The roomiest loom, settled.
pub(super) struct Roomy {
    pub choice: Choice,
    pub settled: Vec<Settled>,
}

/// Settles it, with the fuses and switches of now. Nothing where a state of it has no answer.
pub(super) fn settled(
    d: &mut Design,
    states: &[State],
    widest: &[usize],
    before: &[Settled],
) -> Option<Roomy> {
    let was = d.choice.clone();
    d.choice.wires.clone_from_slice(widest);
    let settled = settle_all(d, states, Some(before));
    let choice = std::mem::replace(&mut d.choice, was);
    let whole = settled.iter().all(|s| s.failure.is_none());
    whole.then_some(Roomy { choice, settled })
}
