//! The alternator against everything that can be on, idling and driving.

use super::Study;
use super::answers::Balance;
use plan::SupplyState;

pub(super) fn find(s: &Study) -> Vec<Balance> {
    let d = s.moments.design;
    let all: Vec<usize> = (0..d.loom.circuits.len()).collect();
    let of = |supply: SupplyState| {
        let gives_a = d.supply.alternator_amps(supply)?;
        let m = s.moments.at(&s.moments.state(supply, &all), 1.0, None);
        let drawn = m.alternator + m.battery;
        let unsaid = s.unsaid.in_state(supply);
        Some(Balance {
            supply,
            gives_a,
            vehicle_a: m.vehicle + unsaid,
            added_a: drawn - m.vehicle,
            left_a: gives_a - drawn - unsaid,
            volts: m.volts,
        })
    };
    [SupplyState::Idling, SupplyState::Driving]
        .into_iter()
        .filter_map(of)
        .collect()
}
