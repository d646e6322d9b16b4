//! Sneak paths: in every state only what is asked for may be on, with the loom whole and with each
//! earth, wire and connector lost, one at a time. What is on unasked is told with the path that its
//! current takes.

mod path;
mod reach;
#[cfg(test)]
mod tests;
mod words;

use crate::amiss::{Amiss, Beside};
use crate::design::Design;
use crate::heat::Heat;
use crate::lost::Lost;
use crate::network::Piece;
use crate::on::unasked;
use crate::settle::{self, Settled};
use crate::state::State;
use loom::{PartId, PartKind};
use rayon::prelude::*;
use std::collections::BTreeSet;
use std::sync::Arc;

pub use path::{Direction, Step};
pub(crate) use words::words;

/// Something on that nobody asked for.
#[derive(Clone, Debug)]
pub struct Sneak {
    /// The state, index into the states tried.
    pub state: usize,
    /// What has come off.
    pub lost: Lost,
    /// What is on: a load, or a signal of the vehicle.
    pub on: PartId,
    /// Volts across it.
    pub volts: f64,
    /// Amperes through it.
    pub amps: f64,
    /// Relays that have pulled in though nothing asks them to, which let it through.
    pub relays: Vec<Pulled>,
    /// The way of the current, from the battery out and back: of the first such relay's coil, or of
    /// the thing itself.
    pub path: Vec<Step>,
}

/// A relay that pulled in unasked.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Pulled {
    /// The relay.
    pub relay: PartId,
    /// What its coil gets, V.
    pub volts: f64,
}

/// Currents below this change nothing when they are lost, A.
const NO_AMPS: f64 = 1e-6;

/// Every sneak path: of the whole loom in every state, and with each thing lost in the states where that
/// could change anything; and the losses that gave no answer. The same thing found in a later state is left out.
pub(crate) fn find(
    d: &Design,
    states: &[State],
    seen: &[Settled],
    heat: &Arc<Heat>,
    losses: bool,
) -> (Vec<Sneak>, Vec<Amiss>) {
    let mut known: BTreeSet<PartId> = BTreeSet::new();
    let all = |tries: &[(usize, Lost, &Settled)], known: &BTreeSet<PartId>| -> Vec<Sneak> {
        let each = tries.par_iter().flat_map_iter(|&(index, lost, settled)| {
            let found = Found {
                index,
                state: &states[index],
                lost,
                settled,
            };
            tell(d, &found, known, heat)
        });
        each.collect()
    };
    let whole = seen.iter().enumerate();
    let whole: Vec<_> = whole.map(|(i, s)| (i, Lost::Nothing, s)).collect();
    let whole = all(&whole, &known);
    known.extend(whole.iter().map(|s| s.on));
    if !losses {
        return (once(whole.into_iter()), Vec::new());
    }
    let losses = Lost::each(d.loom);
    let tried: Vec<(usize, Lost, Settled)> = to_lose(d, states, seen, &losses)
        .par_iter()
        .map(|&(i, lost)| {
            let start = &seen[i].energised;
            let mut s = settle::glance(d, (&states[i], lost), heat, Some(start));
            s.model = None;
            (i, lost, s)
        })
        .collect();
    let lost: Vec<_> = tried.iter().map(|(i, lost, s)| (*i, *lost, s)).collect();
    let amiss = lost
        .iter()
        .filter_map(|(i, lost, s)| Amiss::of(&states[*i], Beside::Lost(*lost), s))
        .collect();
    let lost = all(&lost, &known);
    (once(whole.into_iter().chain(lost)), amiss)
}

/// The losses that could turn something on, each in its states. What carries nothing changes nothing; a
/// loss after which current reaches only what is asked for turns nothing on.
fn to_lose(d: &Design, states: &[State], seen: &[Settled], losses: &[Lost]) -> Vec<(usize, Lost)> {
    let per_state = |(i, state): (usize, &State)| {
        let s = &seen[i];
        if !s.rests() {
            return Vec::new();
        }
        let reach = reach::Reach::new(d, state, s);
        let flowing = Flowing::new(d, s);
        let carrying = losses.iter().filter(|l| flowing.through(**l));
        let found: Vec<(usize, Lost)> = carrying
            .filter(|l| reach.may_wake(d, **l))
            .map(|l| (i, *l))
            .collect();
        found
    };
    // What current can reach hangs on switches, signals and the key: one state stands for all that agree in these.
    let mut met = Vec::new();
    let mut chosen: Vec<(usize, &State)> = Vec::new();
    for (i, s) in states.iter().enumerate() {
        let key = (&s.positions, &s.signals, s.supply.ignition());
        if !met.contains(&key) {
            met.push(key);
            chosen.push((i, s));
        }
    }
    chosen.into_par_iter().flat_map_iter(per_state).collect()
}

/// What carries current in a state.
struct Flowing<'a> {
    s: &'a Settled,
    /// By part: whether a wire that ends at it carries any.
    parts: Vec<bool>,
}

impl<'a> Flowing<'a> {
    fn new(d: &Design, s: &'a Settled) -> Self {
        let mut parts = vec![false; d.loom.parts.len()];
        for (w, amps) in d.loom.wires.iter().zip(&s.wire_amps) {
            if amps.abs() > NO_AMPS {
                for pin in [w.from, w.to] {
                    parts[d.loom.pin(pin).part.0 as usize] = true;
                }
            }
        }
        Self { s, parts }
    }

    fn through(&self, lost: Lost) -> bool {
        match lost {
            Lost::Nothing => false,
            Lost::Wire(w) => self.s.wire_amps[w.0 as usize].abs() > NO_AMPS,
            Lost::Earth(p) | Lost::Connector(p) => self.parts[p.0 as usize],
        }
    }
}

/// A state in which something is on unasked.
struct Found<'a> {
    index: usize,
    state: &'a State,
    lost: Lost,
    settled: &'a Settled,
}

/// Tells each that is not known with its path.
fn tell(d: &Design, found: &Found, known: &BTreeSet<PartId>, heat: &Arc<Heat>) -> Vec<Sneak> {
    let &Found {
        index,
        state,
        lost,
        settled: s,
    } = found;
    if !s.rests() {
        return Vec::new();
    }
    let mut wrong = unasked(d, state, s);
    wrong.retain(|on| !known.contains(on));
    if wrong.is_empty() {
        return Vec::new();
    }
    // The network is not kept for every state: solve this one again, from where it rests.
    let again = settle::glance(d, (state, lost), heat, Some(&s.energised));
    let flows = path::Flows::of(&again);
    let pulled = pulled_unasked(d, state, s);
    wrong
        .into_iter()
        .map(|on| {
            let p = d.loom.part(on);
            let is_load = matches!(p.kind, PartKind::Load(_));
            let mine = |r: &&Pulled| d.loom.part(r.relay).circuit == p.circuit && is_load;
            let relays: Vec<Pulled> = pulled.iter().filter(mine).copied().collect();
            let through = match relays.first() {
                Some(r) => Piece::Coil(r.relay),
                None if is_load => Piece::Load(on),
                None => Piece::OwnLamp(on),
            };
            let volts = match is_load {
                true => s.across(p.pins[0], p.pins[1]),
                false => s.at(p.pins[0]),
            };
            Sneak {
                state: index,
                lost,
                on,
                volts,
                amps: s.part_amps[on.0 as usize],
                relays,
                path: flows.as_ref().map_or_else(Vec::new, |f| f.path(through)),
            }
        })
        .collect()
}

/// Relays that have pulled in though no switch or signal asks them to.
fn pulled_unasked(d: &Design, state: &State, s: &Settled) -> Vec<Pulled> {
    let asked = d.asked(state);
    let relays = d.loom.each_part().filter(|(id, p)| {
        matches!(p.kind, PartKind::Relay(_)) && s.energised[id.0 as usize] && !asked.contains(id)
    });
    relays
        .map(|(relay, p)| Pulled {
            relay,
            volts: s.across(p.pins[2], p.pins[3]).abs(),
        })
        .collect()
}

/// The first of each: the same thing on through the same loss in another state is no news.
fn once(found: impl Iterator<Item = Sneak>) -> Vec<Sneak> {
    let mut told: Vec<Sneak> = Vec::new();
    for f in found {
        if !told.iter().any(|t| t.on == f.on && t.lost == f.lost) {
            told.push(f);
        }
    }
    told
}
