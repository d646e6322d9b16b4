//! What each load may lose, as a row over the wires and fuses on its way. Every row asks no more than the full model
//! does: currents are the least that flow in any loom that keeps the limits, and copper is as cool as in the roomiest
//! loom. Only the load's own current counts as that at its limit: a loom keeps the limit just if it would with that.

use super::options::Options;
use super::program::Row;
use super::roomy::Roomy;
use crate::design::Design;
use crate::settle::Settled;
use crate::size::{as_load, lost, wire_loss};
use crate::{fuse, heat};
use loom::{PartId, PartKind, WireId};
use physics::fuse_clock::hot_resistance;
use quantity::Quantity;
use rayon::prelude::*;
use stock::Conductor;

/// What is asked for a load.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Ask {
    /// Its wires alone are to keep it: joints and contacts lose too much already.
    pub copper: bool,
    /// What it may lose, V.
    pub volts: f64,
}

/// Posts may be as far from what they were in the looms that were settled, as a part.
const POSTS: f64 = 0.002;
/// What wires lose at the least is met by so much, as a part: no two looms settle alike.
const MET: f64 = 0.01;

/// Every load with what is asked for it: its limit; where joints lose too much, that its wires alone keep it; and where
/// not even the thickest do, that they lose little more than those. `d` holds the roomiest loom.
pub(super) fn asks(d: &Design, roomy: &Roomy) -> Vec<(PartId, Ask)> {
    let loads = d.loom.circuits.iter().flat_map(|c| &c.loads);
    let ask = |load: &PartId| {
        let limit = as_load(d, *load)?.drop.si() * d.nominal();
        let each = roomy.settled.iter();
        let seen = each.filter_map(|s| Some((lost(d, s, *load)?, wire_loss(d, s, *load))));
        let (mut copper, mut volts) = (false, limit);
        for (lost, wires) in seen {
            copper |= lost.part > lost.limit;
            if wires > limit {
                volts = volts.max(wires * d.limits.value("eased") * (1.0 + MET));
            }
        }
        Some((*load, Ask { copper, volts }))
    };
    loads.filter_map(ask).collect()
}

/// Currents of a state, as low as they get, A.
struct Low {
    /// By part, for loads: the least, and that at the load's own limit.
    loads: Vec<(f64, f64)>,
    /// By wire: the least.
    wires: Vec<f64>,
    /// By wire and option: its mean temperature at the least, K.
    kelvin: Vec<Vec<f64>>,
}

fn low(d: &Design, s: &Settled, other: &Settled, o: &Options) -> Low {
    let posts = d.loom.parts[0].pins[0];
    let both = [s.at(posts), other.at(posts)];
    let least = both[0].min(both[1]) * (1.0 - POSTS);
    let most = both[0].max(both[1]) * (1.0 + POSTS);
    let of = |(id, part): (PartId, &loom::Part)| {
        let now = s.part_amps[id.0 as usize].abs();
        let (PartKind::Load(l), Some(law)) = (&part.kind, d.fixed.laws[id.0 as usize]) else {
            return (now, now);
        };
        let amps = |volts: f64| law.flow(volts).amps.abs().min(now * 2.0);
        let limit = l.drop.si() * d.nominal();
        let at_limit = amps(least - limit).min(amps(most - limit));
        if now < 1e-3 {
            return (0.0, 0.0);
        }
        // Where no loom keeps the limit, it may be lower still.
        let there = other.part_amps[id.0 as usize].abs();
        (now.min(at_limit).min(there), at_limit)
    };
    let loads: Vec<(f64, f64)> = d.loom.each_part().map(of).collect();
    let wire = |(id, _): (WireId, &loom::Wire)| {
        let on = d.paths.loads(id).iter().map(|l| l.0 as usize);
        let (mut now, mut low) = (0.0, 0.0);
        for l in on {
            now += s.part_amps[l].abs();
            low += loads[l].0;
        }
        let amps = s.wire_amps[id.0 as usize].abs();
        if now > 0.0 { amps * low / now } else { 0.0 }
    };
    let wires: Vec<f64> = d.loom.each_wire().map(wire).collect();
    let at = (0..wires.len()).into_par_iter();
    let kelvin = at.map(|w| kelvin(d, s, o, w, wires[w])).collect();
    Low {
        loads,
        wires,
        kelvin,
    }
}

/// Mean temperatures of a wire by its options, K: as in the roomiest loom, and where it lies alone as warm as it makes itself.
fn kelvin(d: &Design, s: &Settled, o: &Options, at: usize, amps: f64) -> Vec<f64> {
    let wire = WireId(at as u32);
    let w = d.loom.wire(wire);
    let laid: f64 = w
        .stretches
        .iter()
        .map(|id| d.loom.stretch(*id).length.si())
        .sum();
    let part = (1.0 - laid / w.cut.si()).max(0.0);
    let roomy = s.heat.mean[at];
    let felt = amps.min(s.heat.felt[at]);
    if part == 0.0 || felt < 0.1 {
        return vec![roomy; o.wires[at].len()];
    }
    let ends = [w.places[0], w.places[w.places.len() - 1]];
    let around = ends.iter().map(|p| d.heat_at(*p)).fold(0.0, f64::max);
    let alone = |c: &Conductor| heat::alone(d, c, felt, around);
    let now = alone(d.conductor(wire));
    let each = o.wires[at]
        .iter()
        .map(|c| alone(&d.stock.conductors[*c]) - now);
    each.map(|warmer| roomy + part * warmer.max(0.0)).collect()
}

/// The rows of every load and state. `d` holds the roomiest loom; `other` is another loom's settling of the same states.
pub(super) fn all(
    d: &Design,
    (roomy, other): (&Roomy, &[Settled]),
    options: &Options,
    asks: &[(PartId, Ask)],
) -> Vec<Row> {
    let mut rows = Vec::new();
    for (s, other) in roomy.settled.iter().zip(other) {
        let low = low(d, s, other, options);
        for (load, ask) in asks {
            if s.part_amps[load.0 as usize].abs() < 1e-3 {
                continue;
            }
            rows.extend(row(d, (s, &low), options, (*load, *ask)));
        }
    }
    rows
}

fn row(
    d: &Design,
    (s, low): (&Settled, &Low),
    options: &Options,
    (load, ask): (PartId, Ask),
) -> Option<Row> {
    let (least, at_limit) = low.loads[load.0 as usize];
    // Where more than the limit is lost, its own current too counts at its least.
    let own = if ask.copper {
        0.0
    } else {
        (at_limit - least).max(0.0)
    };
    let way: Vec<WireId> = d.paths.way(load).copied().collect();
    let settled = |w: WireId| s.wire_amps[w.0 as usize].abs();
    let amps = |w: WireId| low.wires[w.0 as usize] + own;
    let mut weights = Vec::new();
    // What wires and fuses that are chosen lose as settled; the rest is joints and contacts, which stay.
    let (mut chosen, mut joints, mut part) = (0.0, 0.0, 1.0_f64);
    for &w in way.iter().filter(|w| settled(**w) > 0.0) {
        let at = w.0 as usize;
        let ohms = |c: usize, kelvin: f64| d.copper_ohms(w, &d.stock.conductors[c], kelvin);
        let each = options.wires[at].iter().zip(&low.kelvin[at]);
        let each = each.map(|(c, kelvin)| amps(w) * ohms(*c, *kelvin));
        weights.push((at, each.collect()));
        chosen += settled(w) * (ohms(d.choice.wires[at], s.heat.mean[at]) + d.joint_ohms(w));
        joints += amps(w) * d.joint_ohms(w);
        part = part.min(amps(w) / settled(w));
    }
    if ask.copper {
        return Some(Row {
            weights,
            most: ask.volts,
        });
    }
    for (f, (id, held)) in options.fuses.iter().enumerate() {
        let Some(after) = way.iter().find(|w| d.loom.wire(**w).fuse == Some(*id)) else {
            continue;
        };
        let now = s.part_amps[id.0 as usize].abs();
        if now == 0.0 || settled(*after) == 0.0 {
            continue;
        }
        let through = now * (amps(*after) / settled(*after)).min(1.0);
        let volts = |amps: f64, held: crate::FuseChoice| {
            let rating = &d.stock.fuses[held.kind].ratings[held.rating];
            amps * hot_resistance(rating.cold_ohms, amps / rating.amps.si())
        };
        let each = held.iter().map(|held| volts(through, *held));
        weights.push((options.wires.len() + f, each.collect()));
        chosen += d.choice.fuses[id.0 as usize].map_or(0.0, |held| volts(now, held));
    }
    let whole = lost(d, s, load)?.volts;
    let rest = (whole - chosen).max(0.0) * part;
    Some(Row {
        weights,
        most: ask.volts - joints - rest,
    })
}

/// What a fuse can break bounds from above what may flow at a short behind it: the wires before it may not be too thick.
/// A row for each fuse that can break what the choice in `d` lets flow.
pub(super) fn breaking(d: &Design, o: &Options) -> Vec<Row> {
    let each = o.fuses.iter().filter_map(|(part, _)| {
        let (kind, _) = d.fuse(*part)?;
        let most = kind.breaking.si();
        let ahead = fuse::ahead(d, *part);
        let holds = fuse::prospective(d, *part) <= most;
        let needed = ahead.volts / most - ahead.ohms;
        if !holds || needed <= 0.0 || ahead.wires.is_empty() {
            return None;
        }
        let weights = ahead.wires.iter().map(|w| {
            let at = w.0 as usize;
            let metres = d.loom.wire(*w).cut.si();
            let ohms = |c: &usize| d.stock.conductors[*c].ohm_per_m_20 * metres;
            // In parts of what is needed: milliohms would drown in the solver's rounding.
            (at, o.wires[at].iter().map(|c| -ohms(c) / needed).collect())
        });
        Some(Row {
            weights: weights.collect(),
            most: -1.0,
        })
    });
    each.collect()
}
