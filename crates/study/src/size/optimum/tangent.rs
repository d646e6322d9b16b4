//! The row that forbids a choice in which a load loses too much, and with it all that lose as much for the same reason: what
//! the load loses as settled, and by how much that changes with each wire. Thinner wires on its way resist more; thinner
//! wires beside it warm it. It meets the full model at the choice. Elsewhere the model bends: so every change is taken as
//! more helpful and less harmful than it is at the choice, by more than the model bends between choices worth trying.

use super::options::Options;
use super::program::Row;
use super::rows::Ask;
use crate::design::Design;
use crate::heat;
use crate::settle::Settled;
use crate::size::lost;
use loom::{PartId, StretchId, WireId};
use physics::bundle::{self, BundleWire};
use physics::conductor::{COPPER_ALPHA, resistance_at};
use physics::fuse_clock::hot_resistance;
use quantity::Quantity;
use std::collections::BTreeMap;

/// A change of heat may do so much more good, or less harm, than at the choice, as a part: bundles bend over their heat,
/// and wires in their middle matter more than those outside.
const BENDS: f64 = 0.25;
/// A change of resistance too, as a part of it: its wire may be so much cooler when it counts, 12 K of copper.
const COOLER: f64 = 0.05;
/// Part of what is lost too much that other loads' currents may give back.
const GIVEN_BACK: f64 = 0.3;
/// Part of the currents at which a bundle's slope is measured.
const LESS: f64 = 0.95;

/// A change as it is counted: what helps more, what harms less.
fn counted(change: f64) -> f64 {
    change
        * if change < 0.0 {
            1.0 + BENDS
        } else {
            1.0 - BENDS
        }
}

/// Weights as they gather, by thing and option.
struct Weights<'a> {
    o: &'a Options,
    of: BTreeMap<usize, Vec<f64>>,
}

impl Weights<'_> {
    fn add(&mut self, thing: usize, of: impl Fn(usize) -> f64) {
        let none = || vec![0.0; self.o.count(thing)];
        let each = self.of.entry(thing).or_insert_with(none).iter_mut();
        each.enumerate().for_each(|(k, weight)| *weight += of(k));
    }
}

/// The row of a load that loses more than is asked as `s` settled with the choice in `d`.
pub(super) fn row(
    (d, o): (&Design, &Options),
    s: &Settled,
    (load, ask): (PartId, Ask),
) -> Option<Row> {
    let way: Vec<WireId> = d.paths.way(load).copied().collect();
    let mut weights = Weights {
        o,
        of: BTreeMap::new(),
    };
    let (mut whole, mut slopes) = (0.0, BTreeMap::new());
    for w in way {
        let at = w.0 as usize;
        let amps = s.wire_amps[at].abs();
        let ohms = |c: usize| d.copper_ohms(w, &d.stock.conductors[c], s.heat.mean[at]);
        let now = ohms(d.choice.wires[at]);
        whole += amps * now;
        weights.add(at, |k| {
            let other = ohms(o.wires[at][k]);
            amps * (other - COOLER * (other - now).abs())
        });
        let per_kelvin = amps * now / resistance_at(1.0, s.heat.mean[at]) * COPPER_ALPHA;
        warmer((d, o), s, (w, per_kelvin), &mut slopes, &mut weights);
    }
    for (f, (part, held)) in o.fuses.iter().enumerate().filter(|_| !ask.copper) {
        let mut way = d.paths.way(load);
        if !way.any(|w| d.loom.wire(*w).fuse == Some(*part)) {
            continue;
        }
        let amps = s.part_amps[part.0 as usize].abs();
        let volts = |held: crate::FuseChoice| {
            let rating = &d.stock.fuses[held.kind].ratings[held.rating];
            amps * hot_resistance(rating.cold_ohms, amps / rating.amps.si())
        };
        whole += d.choice.fuses[part.0 as usize].map_or(0.0, volts);
        weights.add(o.wires.len() + f, |k| volts(held[k]));
    }
    let loses = if ask.copper {
        whole
    } else {
        lost(d, s, load)?.volts
    };
    let back = GIVEN_BACK * (loses - ask.volts);
    Some(Row {
        weights: weights.of.into_iter().collect(),
        most: whole - (loses - ask.volts) + back,
    })
}

/// Adds what a wire of the way loses for each kelvin that others, and itself, warm it.
fn warmer(
    (d, o): (&Design, &Options),
    s: &Settled,
    (wire, volts_per_kelvin): (WireId, f64),
    slopes: &mut BTreeMap<StretchId, Option<Slopes>>,
    weights: &mut Weights,
) {
    let w = d.loom.wire(wire);
    let at = wire.0 as usize;
    let length = |id: &StretchId| d.loom.stretch(*id).length.si();
    let laid: f64 = w.stretches.iter().map(length).sum();
    let all = w.cut.si().max(laid);
    for id in &w.stretches {
        let slope = slopes.entry(*id).or_insert_with(|| Slopes::new(d, s, *id));
        let lying = &d.loom.stretch(*id).wires;
        let place = lying.iter().position(|x| *x == wire);
        let Some((slope, place)) = slope.as_ref().zip(place) else {
            continue;
        };
        let each = volts_per_kelvin * length(id) / all * slope.0[place];
        for beside in lying {
            let at = beside.0 as usize;
            let amps = s.wire_amps[at].abs().min(s.heat.felt[at]);
            if amps > 0.0 {
                let makes = |c: usize| {
                    let r20 = d.stock.conductors[c].ohm_per_m_20;
                    amps * amps * resistance_at(r20, s.heat.mean[at])
                };
                let now = makes(d.choice.wires[at]);
                weights.add(at, |k| each * counted(makes(o.wires[at][k]) - now));
            }
        }
    }
    let rest = (all - laid) / all;
    if rest > 0.0 && s.heat.felt[at] > 0.0 {
        let ends = [w.places[0], w.places[w.places.len() - 1]];
        let around = ends.iter().map(|p| d.heat_at(*p)).fold(0.0, f64::max);
        let alone = |c: usize| heat::alone(d, &d.stock.conductors[c], s.heat.felt[at], around);
        let now = alone(d.choice.wires[at]);
        weights.add(at, |k| {
            volts_per_kelvin * rest * counted(alone(o.wires[at][k]) - now)
        });
    }
}

/// By wire of a stretch: how much warmer it gets for the heat that the bundle makes, K for each W/m.
struct Slopes(Vec<f64>);

impl Slopes {
    fn new(d: &Design, s: &Settled, id: StretchId) -> Option<Self> {
        let stretch = d.loom.stretch(id);
        let over = heat::sleeve(d, id);
        let at = |part: f64| {
            let each = stretch.wires.iter();
            let wires: Vec<BundleWire> = each
                .map(|w| heat::in_bundle(d, *w, s.wire_amps[w.0 as usize].abs() * part))
                .collect();
            bundle::steady(&wires, over, stretch.heat.si(), None)
        };
        let (now, less) = (at(1.0), at(LESS));
        let watts = now.watts_per_m - less.watts_per_m;
        let each = now.kelvin.iter().zip(&less.kelvin);
        (watts > 0.0).then(|| Self(each.map(|(a, b)| ((a - b) / watts).max(0.0)).collect()))
    }
}
