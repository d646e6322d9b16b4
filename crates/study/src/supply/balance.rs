//! The alternator against everything that can be on, idling and driving.

use super::Study;
use super::answers::Balance;
use super::moment::Moment;
use crate::amiss::Amiss;
use loom::PartId;
use plan::SupplyState;

pub(super) fn find(s: &Study) -> Result<Vec<Balance>, Amiss> {
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
        let moments = moments.collect::<Result<Vec<Moment>, Amiss>>();
        let most = |moments: Vec<Moment>| {
            let each = moments.into_iter();
            each.max_by(|a, b| drawn(a).total_cmp(&drawn(b)))
        };
        let told = |m: Moment| Balance {
            supply,
            gives_a,
            vehicle_a: m.vehicle,
            added_a: drawn(&m) - m.vehicle,
            left_a: gives_a - drawn(&m),
            volts: m.volts,
        };
        moments.map(|m| most(m).map(told)).transpose()
    };
    [SupplyState::Idling, SupplyState::Driving]
        .into_iter()
        .filter_map(of)
        .collect()
}

/// Everything that is drawn, from alternator and battery, A.
fn drawn(m: &Moment) -> f64 {
    m.alternator + m.battery
}
