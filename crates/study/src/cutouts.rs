//! Cut-outs at every charge: a device whose two voltages lie closer together than its load pulls its own supply
//! down goes in and out, and that shows only where the battery is about as low as its setting.

use crate::combine;
use crate::design::Design;
use crate::heat::Heat;
use crate::lost::Lost;
use crate::relays::Flip;
use crate::settle::{self, View};
use crate::state::{Position, State};
use loom::PartId;
use plan::SupplyState;
use std::sync::Arc;

/// When something finds no rest.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Unrest {
    /// At a charge of the battery, 0 to 1.
    Charge(f64),
    /// Once something is lost.
    Lost(Lost),
}

/// A cut-out that goes in and out at some charge, or a relay that does once something is lost.
#[derive(Clone, Debug)]
pub struct Restless {
    /// The cut-out or relay.
    pub part: PartId,
    /// Name of the state.
    pub state: String,
    /// When.
    pub when: Unrest,
    /// The circle it goes round in.
    pub round: Vec<Flip>,
}

/// Charge is tried in steps of this many per cent, from full down.
const STEP: usize = 2;

/// Every cut-out, with its circuit alone and with everything on, the engine off.
pub(crate) fn find(d: &Design, heat: &Arc<Heat>) -> Vec<Restless> {
    let mut found = Vec::new();
    for (i, c) in d.loom.circuits.iter().enumerate() {
        let Some(cutout) = c.cutout else { continue };
        let mut alone = combine::at_rest(d.loom);
        alone[i] = Position::On;
        let all = vec![Position::On; d.loom.circuits.len()];
        let supply = match c.ignition {
            true => SupplyState::KeyOn,
            false => SupplyState::Parked,
        };
        let states = [alone, all].map(|p| State::new(d.loom, supply, p, c.only.clone()));
        found.extend(states.iter().find_map(|s| restless(d, heat, cutout, s)));
    }
    found
}

/// The first charge, from full down, at which it does not come to rest.
fn restless(d: &Design, heat: &Arc<Heat>, part: PartId, state: &State) -> Option<Restless> {
    let kelvin = d.heat_at(d.loom.parts[0].place);
    (0..=100).step_by(STEP).find_map(|used| {
        let charge = 1.0 - used as f64 / 100.0;
        let view = View {
            battery: Some((charge, kelvin)),
            ..View::default()
        };
        let s = settle::glance_as(d, state, view, heat, None);
        s.chattering().contains(&part).then(|| Restless {
            part,
            state: state.name.clone(),
            when: Unrest::Charge(charge),
            round: s.chatter,
        })
    })
}
