//! The vehicle left standing: every switch off, the key out.

use super::Study;
use super::answers::Parked;
use crate::supply_side::vehicle_amps;
use plan::SupplyState;

pub(super) fn find(s: &Study) -> Parked {
    let d = s.moments.design;
    let state = s.moments.state(SupplyState::Parked, &[]);
    let m = s.moments.at(&state, 1.0, None);
    let said = vehicle_amps(d, SupplyState::Parked);
    let vehicle_a = said + s.unsaid_parked;
    let added_a = m.battery - said;
    let self_a = s.store.self_amps();
    let per_hour = s.store.taken_per_hour(vehicle_a + added_a + self_a);
    Parked {
        vehicle_a,
        added_a,
        self_a,
        days: (1.0 - s.reserve) / per_hour / 24.0,
    }
}
