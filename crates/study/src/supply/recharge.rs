//! How long the engine must run to put back what a run down to the reserve took.

use super::Study;
use super::answers::Recharge;
use crate::amiss::Amiss;
use plan::SupplyState;

/// The last of a charge takes for ever: this counts as full.
const FULL: f64 = 0.95;
const STEP: f64 = 0.01;

pub(super) fn find(s: &Study) -> Result<Vec<Recharge>, Amiss> {
    let of = |supply: SupplyState| {
        let gives = s.moments.design.supply.alternator_amps(supply)?;
        Some(run(s, supply, gives))
    };
    [SupplyState::Idling, SupplyState::Driving]
        .into_iter()
        .filter_map(of)
        .collect()
}

fn run(s: &Study, supply: SupplyState, gives: f64) -> Result<Recharge, Amiss> {
    let state = s.moments.state(supply, &[]);
    let m = s.moments.at(&state, 1.0, None)?;
    let left = gives - m.alternator - m.battery;
    let from = s.least.min(FULL);
    let (mut charge, mut hours) = (from, 0.0);
    while charge < FULL - 1e-9 {
        let per_hour = s.store.put_back_per_hour(s.store.accepts(charge, left));
        if per_hour <= 0.0 {
            hours = f64::INFINITY;
            break;
        }
        let step = STEP.min(FULL - charge);
        hours += step / per_hour;
        charge += step;
    }
    Ok(Recharge {
        supply,
        from,
        to: FULL,
        amps: s.store.accepts(from, left),
        hours,
    })
}
