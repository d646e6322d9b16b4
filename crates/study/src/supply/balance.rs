//! The alternator against everything that can be on, idling and driving.

use super::Study;
use super::answers::Balance;
use super::moment::Moment;
use loom::PartId;
use plan::SupplyState;

pub(super) fn find(s: &Study) -> Vec<Balance> {
    let d = s.moments.design;
    let all: Vec<usize> = (0..d.loom.circuits.len()).collect();
    let signals: Vec<PartId> = crate::combine::each_signal(d.loom).collect();
    let wanted: Vec<PartId> = d
        .loom
        .circuits
        .iter()
        .flat_map(|c| c.only.clone())
        .collect();
    let of = |supply: SupplyState| {
        let gives_a = d.supply.alternator_amps(supply)?;
        // Where conditions shut one another out, the setting that draws most counts.
        let settings = [&wanted[..], &[], &signals[..]].into_iter();
        let moments = settings.map(|there| {
            let state = s.moments.state_with(supply, &all, there);
            s.moments.at(&state, 1.0, None)
        });
        let drawn = |m: &Moment| m.alternator + m.battery;
        let m = moments.max_by(|a, b| drawn(a).total_cmp(&drawn(b)))?;
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
