//! The vehicle left standing: every switch off, the key out, followed down to the reserve. What has battery
//! protection is let go on the way.

use super::Study;
use super::answers::Parked;
use crate::amiss::Amiss;
use plan::SupplyState;

/// Charge is followed in steps of this much.
const STEP: f64 = 0.01;
/// Less than this added is no draw that anybody would unplug something for, A.
const NO_USE: f64 = 2e-3;

pub(super) fn find(s: &Study) -> Result<Parked, Amiss> {
    let state = s.moments.state(SupplyState::Parked, &[]);
    let self_a = s.store.self_amps();
    let full = s.moments.at(&state, 1.0, None)?;
    let (vehicle_a, added_a) = (full.vehicle, (full.battery - full.vehicle).max(0.0));
    let (mut m, mut charge, mut hours) = (full, 1.0, 0.0);
    while charge > s.least + 1e-9 {
        let step = STEP.min(charge - s.least);
        hours += step / s.store.taken_per_hour(m.battery + self_a);
        charge -= step;
        m = s.moments.at(&state, charge, Some(&m.energised))?;
    }
    let alone = (1.0 - s.least) / s.store.taken_per_hour(vehicle_a + self_a) / 24.0;
    Ok(Parked {
        vehicle_a,
        added_a,
        self_a,
        days: hours / 24.0,
        days_without: (added_a > NO_USE).then_some(alone),
    })
}
