//! The vehicle left standing: every switch off, the key out, followed down to the reserve. What has battery
//! protection is let go on the way.

use super::Study;
use super::answers::Parked;
use plan::SupplyState;

/// Charge is followed in steps of this much.
const STEP: f64 = 0.01;
/// Less than this added is no draw that anybody would unplug something for, A.
const NO_USE: f64 = 2e-3;

pub(super) fn find(s: &Study) -> Parked {
    let state = s.moments.state(SupplyState::Parked, &[]);
    let self_a = s.store.self_amps();
    let (mut charge, mut hours, mut standing) = (1.0, 0.0, None);
    let mut first = None;
    while charge > s.reserve + 1e-9 {
        let m = s.moments.at(&state, charge, standing.as_deref());
        let vehicle_a = m.vehicle + s.unsaid.parked;
        first.get_or_insert((vehicle_a, m.battery - m.vehicle));
        let step = STEP.min(charge - s.reserve);
        hours += step / s.store.taken_per_hour(m.battery + s.unsaid.parked + self_a);
        charge -= step;
        standing = Some(m.energised);
    }
    let (vehicle_a, added_a) = first.unwrap_or((s.unsaid.parked, 0.0));
    let alone = (1.0 - s.reserve) / s.store.taken_per_hour(vehicle_a + self_a) / 24.0;
    Parked {
        vehicle_a,
        added_a: added_a.max(0.0),
        self_a,
        days: hours / 24.0,
        days_without: (added_a > NO_USE).then_some(alone),
    }
}
