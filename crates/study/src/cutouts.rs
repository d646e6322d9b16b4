//! Cut-outs at every charge: a device whose two voltages lie closer together than its load pulls its own supply
//! down goes in and out, and that shows only where the battery is about as low as its setting.

use crate::amiss::{Amiss, Beside};
use crate::combine;
use crate::design::Design;
use crate::heat::Heat;
use crate::settle::{self, View};
use crate::state::{Position, State};
use plan::SupplyState;
use std::sync::Arc;

/// Charge is tried in steps of this many per cent, from full down.
const STEP: usize = 2;

/// Every cut-out, with its circuit alone and with everything on, the engine off: the first charge, from full
/// down, at which it gives no answer.
pub(crate) fn find(d: &Design, heat: &Arc<Heat>) -> Vec<Amiss> {
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
        let mut looks = states.iter().flat_map(|s| looks(d, heat, s));
        found.extend(looks.find(|a| a.concerns(cutout)));
    }
    found
}

/// A state at one charge after another, as far as it gives no answer.
fn looks<'a>(
    d: &'a Design,
    heat: &'a Arc<Heat>,
    state: &'a State,
) -> impl Iterator<Item = Amiss> + 'a {
    let kelvin = d.heat_at(d.loom.parts[0].place);
    (0..=100).step_by(STEP).filter_map(move |used| {
        let charge = 1.0 - used as f64 / 100.0;
        let view = View {
            battery: Some((charge, kelvin)),
            ..View::default()
        };
        let s = settle::glance_as(d, state, view, heat, None);
        Amiss::of(state, Beside::Charge(charge), &s)
    })
}
