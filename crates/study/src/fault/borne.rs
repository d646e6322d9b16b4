//! Whether what is hot may stay so: at rest no wire passes its class temperature, and no fuse feels more than its
//! rating. Then nothing happens in time, and the steady law says how hot it gets.

use super::hot::Hot;
use super::look::Look;
use crate::answers::Answers;
use crate::design::Design;
use crate::heat;
use loom::{StretchId, WireId};
use physics::bundle::{self, BundleWire};
use quantity::Quantity;
use std::collections::BTreeSet;

/// The hottest of the wires that are hot, at rest, K; none where one passes its class temperature or a fuse runs.
pub(super) fn borne(
    d: &Design,
    answers: &Answers,
    look: &Look,
    hot: &Hot,
) -> Option<(WireId, f64)> {
    if !hot.fuses.is_empty() {
        return None;
    }
    let amps = |w: WireId| look.settled.wire_amps[w.0 as usize].abs();
    let class = |w: WireId| d.insulation(d.conductor(w)).limit.si();
    let mut hottest: Option<(WireId, f64)> = None;
    let mut note = |w: WireId, kelvin: f64| {
        if hottest.is_none_or(|h| kelvin > h.1) {
            hottest = Some((w, kelvin));
        }
        kelvin <= class(w)
    };
    let mut stretches: BTreeSet<StretchId> = BTreeSet::new();
    for warm in &hot.wires {
        let w = d.loom.wire(warm.wire);
        stretches.extend(&w.stretches);
        let ends = [w.places[0], w.places[w.places.len() - 1]];
        let around = ends.iter().map(|p| d.heat_at(*p)).fold(0.0, f64::max);
        let kelvin = heat::alone(d, d.conductor(warm.wire), amps(warm.wire), around);
        if !note(warm.wire, kelvin) {
            return None;
        }
    }
    let runs = |w: WireId| hot.wires.iter().any(|h| h.wire == w);
    for stretch in stretches {
        let s = d.loom.stretch(stretch);
        let lying: Vec<BundleWire> = s
            .wires
            .iter()
            .map(|w| {
                let c = d.conductor(*w);
                let usual = answers.heat.felt[w.0 as usize];
                BundleWire {
                    body: heat::body(d, c),
                    r20_per_m: c.ohm_per_m_20,
                    amps: if runs(*w) { amps(*w).max(usual) } else { usual },
                }
            })
            .collect();
        let kelvin = bundle::steady_kelvin(&lying, heat::sleeve(d, stretch), s.heat.si());
        for (w, kelvin) in s.wires.iter().zip(kelvin) {
            let within = kelvin <= class(*w);
            if runs(*w) && !note(*w, kelvin) || !within {
                return None;
            }
        }
    }
    hottest
}
