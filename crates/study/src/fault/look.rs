//! The network with a fault in it: right after it, and again each time that something has changed since.

use crate::change::Change;
use crate::design::Design;
use crate::heat::Heat;
use crate::settle::{self, Hold, Settled, View};
use crate::state::State;
use std::sync::Arc;

/// A state with a fault in it.
#[derive(Clone, Debug)]
pub(super) struct Look {
    /// What has changed since the loom was whole.
    pub change: Change,
    /// What it settled to, with its network.
    pub settled: Settled,
    /// Relays that come to no rest with the fault: they buzz, and count as in, so that current flows on.
    pub buzzes: bool,
    /// What does not turn any more.
    pub hold: Hold,
}

/// Looks at a state with a change in it, its relays standing as they did.
pub(super) fn look(
    d: &Design,
    state: &State,
    change: Change,
    (heat, energised): (&Arc<Heat>, &[bool]),
) -> Look {
    let seen = |hold: Hold| {
        let view = View {
            change,
            hold,
            ..View::default()
        };
        settle::glance_as(d, state, view, heat, Some(energised))
    };
    let settled = seen(Hold::Nothing);
    if settled.chatter.is_empty() {
        return Look {
            change,
            settled,
            buzzes: false,
            hold: Hold::Nothing,
        };
    }
    Look {
        change,
        settled: seen(Hold::Everything),
        buzzes: true,
        hold: Hold::Everything,
    }
}
