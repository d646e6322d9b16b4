//! How hot what is hot gets at rest, by the steady law; and whether it may stay so: no wire passes its class
//! temperature, and no fuse feels more than its rating. Then nothing happens in time.

use super::hot::Hot;
use super::look::Look;
use crate::answers::Answers;
use crate::design::Design;
use crate::heat;
use loom::{StretchId, WireId};
use physics::bundle::{self, BundleWire};
use quantity::Quantity;
use std::collections::{BTreeMap, BTreeSet};

/// Wires that are hot, each with its current, A; of a wire in two halves the larger.
pub(super) type Running = BTreeMap<WireId, f64>;

/// The hottest of the wires that are hot, at rest, K; none where a wire passes its class temperature or a fuse runs.
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
    let running: Running = hot.wires.iter().map(|h| (h.wire, amps(h.wire))).collect();
    let mut hottest: Option<(WireId, f64)> = None;
    for (w, kelvin) in at_rest(d, answers, &running) {
        if kelvin > d.insulation(d.conductor(w)).limit.si() {
            return None;
        }
        if running.contains_key(&w) && hottest.is_none_or(|h| kelvin > h.1) {
            hottest = Some((w, kelvin));
        }
    }
    hottest
}

/// Each of these wires at rest (K), alone and in each bundle, and those that lie beside them there.
pub(super) fn at_rest(
    d: &Design,
    answers: &Answers,
    running: &Running,
) -> impl Iterator<Item = (WireId, f64)> {
    let alone = |(wire, amps): (&WireId, &f64)| {
        let places = &d.loom.wire(*wire).places;
        let ends = [places[0], places[places.len() - 1]];
        let around = ends.iter().map(|p| d.heat_at(*p)).fold(0.0, f64::max);
        (*wire, heat::alone(d, d.conductor(*wire), *amps, around))
    };
    let lying = |stretch: StretchId| {
        let s = d.loom.stretch(stretch);
        let wire = |w: &WireId| -> BundleWire {
            let usual = answers.heat.felt[w.0 as usize];
            let now = running.get(w).map_or(usual, |amps| amps.max(usual));
            heat::in_bundle(d, *w, now)
        };
        let lying: Vec<BundleWire> = s.wires.iter().map(wire).collect();
        let kelvin = bundle::steady_kelvin(&lying, heat::sleeve(d, stretch), s.heat.si());
        s.wires.iter().copied().zip(kelvin)
    };
    let ways = running.keys().flat_map(|w| &d.loom.wire(*w).stretches);
    let stretches: BTreeSet<StretchId> = ways.copied().collect();
    running
        .iter()
        .map(alone)
        .chain(stretches.into_iter().flat_map(lying))
}
