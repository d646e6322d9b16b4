//! The network with a fault in it: right after it, and again each time that something has changed since.

use crate::change::Change;
use crate::design::Design;
use crate::heat::Heat;
use crate::settle::{self, Hold, Settled, View};
use crate::state::State;
use std::sync::Arc;

/// A state with a fault in it.
#[derive(Clone, Debug)]
pub(crate) struct Look {
    /// What has changed since the loom was whole.
    pub change: Change,
    /// What it settled to, with its network.
    pub settled: Settled,
    /// Relays that come to no rest with the fault: they buzz, and count as in, so that current flows on.
    pub buzzes: bool,
    /// What does not turn any more.
    pub hold: Hold,
}

/// Looks at a state with a change in it, its relays standing as they did before, its voltages near those.
pub(crate) fn look(
    d: &Design,
    state: &State,
    change: Change,
    (heat, before): (&Arc<Heat>, &Settled),
) -> Look {
    let seen = |hold: Hold, before: &Settled| {
        let view = View {
            change,
            hold,
            near: true,
            ..View::default()
        };
        settle::glance_near(d, state, view, heat, before)
    };
    let settled = seen(Hold::Nothing, before);
    if settled.chatter.is_empty() {
        return Look {
            change,
            settled,
            buzzes: false,
            hold: Hold::Nothing,
        };
    }
    // Whatever buzzes counts as in: so it lets most through.
    let mut held = before.clone();
    for flip in &settled.chatter {
        held.energised[flip.part.0 as usize] = true;
    }
    Look {
        change,
        settled: seen(Hold::Everything, &held),
        buzzes: true,
        hold: Hold::Everything,
    }
}
