//! The survey: every state that is tried, solved at the temperatures that the sized states gave, many at a
//! time. A state that asks more of a wire, fuse, switch or load than they bear is sized for as well.

use crate::design::Design;
use crate::fuse;
use crate::heat::Heat;
use crate::lost::Lost;
use crate::settle::{self, Settled};
use crate::size::{Case, judge, lost};
use crate::state::State;
use crate::switchgear;
use loom::{PartId, PartKind, WireId};
use plan::SupplyState;
use quantity::Quantity;
use rayon::prelude::*;
use std::sync::Arc;

/// Solves every state. Cranking follows the key: its relays start as that left them.
pub(crate) fn all(d: &Design, states: &[State], heat: &Arc<Heat>) -> Vec<Settled> {
    let look = |state: &State, from: Option<&[bool]>| {
        let mut settled = settle::glance(d, (state, Lost::Nothing), heat, from);
        // Thousands of networks are not worth keeping: one can be solved again when it is asked for.
        settled.model = None;
        settled
    };
    let first: Vec<Option<Settled>> = states
        .par_iter()
        .map(|s| (s.supply != SupplyState::Cranking).then(|| look(s, None)))
        .collect();
    let before = |state: &State| {
        let same = |(_, s): &(usize, &State)| {
            s.supply == SupplyState::KeyOn && s.positions == state.positions
        };
        let alike = |s: &State| {
            s.signals
                .iter()
                .filter(|x| state.signals.contains(x))
                .count()
        };
        let closest = states
            .iter()
            .enumerate()
            .filter(same)
            .max_by_key(|(_, s)| alike(s));
        closest
            .and_then(|(i, _)| first[i].as_ref())
            .map(|s| s.energised.clone())
    };
    let rest: Vec<Option<Settled>> = states
        .par_iter()
        .map(|s| (s.supply == SupplyState::Cranking).then(|| look(s, before(s).as_deref())))
        .collect();
    first
        .into_iter()
        .zip(rest)
        .filter_map(|(a, b)| a.or(b))
        .collect()
}

/// Puts the states that sized the loom, with their heat and network, in the place of those that were only
/// looked at, where both stand alike: a cut-out that is out in earnest was held in for sizing.
pub(crate) fn with_networks(mut seen: Vec<Settled>, sized: &[Settled]) -> Vec<Settled> {
    for (seen, sized) in seen.iter_mut().zip(sized) {
        if seen.energised == sized.energised && seen.chatter.is_empty() {
            *seen = sized.clone();
        }
    }
    seen
}

/// Whether a state lasts, and came to rest. Cranking lasts seconds: nothing warms, no fuse opens.
pub(crate) fn lasts(state: &State, s: &Settled) -> bool {
    state.supply != SupplyState::Cranking && s.rests()
}

/// The states that ask more of something than it bears as sized, by index: for each thing the state that
/// asks most of it.
pub(crate) fn beyond(
    d: &Design,
    states: &[State],
    seen: &[Settled],
    sized: &[Settled],
) -> Vec<usize> {
    let lasting: Vec<usize> = (0..states.len())
        .filter(|i| lasts(&states[*i], &seen[*i]))
        .collect();
    let most = |of: &dyn Fn(&Settled) -> f64| {
        let all = lasting.iter().map(|i| (*i, of(&seen[*i])));
        all.max_by(|a, b| a.1.total_cmp(&b.1).then(b.0.cmp(&a.0)))
            .unwrap_or((0, 0.0))
    };
    let had = |of: &dyn Fn(&Settled) -> f64| sized.iter().map(of).fold(0.0, f64::max);
    let mut found = Vec::new();
    for (id, _) in d.loom.each_wire() {
        let amps = |s: &Settled| s.wire_amps[id.0 as usize].abs();
        let (state, asked) = most(&amps);
        if asked > had(&amps) && !bears(d, sized, id, asked) {
            found.push(state);
        }
    }
    for (id, _) in d.loom.each_part() {
        let amps = |s: &Settled| s.part_amps[id.0 as usize].abs();
        let (state, asked) = most(&amps);
        if asked > had(&amps) && !carries(d, sized, id, asked) {
            found.push(state);
        }
    }
    for load in d.loom.circuits.iter().flat_map(|c| &c.loads) {
        let part = |s: &Settled| lost(d, s, *load).map_or(0.0, |l| l.part / l.limit);
        let (state, asked) = most(&part);
        if asked > 1.0 && had(&part) <= 1.0 {
            found.push(state);
        }
    }
    found.sort_unstable();
    found.dedup();
    found
}

/// Current that counts as no more than what was sized for; heat goes by its square.
const NO_MORE: f64 = 1.02;
/// A wire that carries less warms nobody, A.
const NO_HEAT_AMPS: f64 = 0.5;

/// States in which a bundle may be warmer than in any sized one, with their heat: for each bundle that in which it
/// makes most, of those where some wire carries its current while its neighbours make more heat than in any sized
/// state in which it carries as much.
pub(crate) fn warmer(
    d: &Design,
    states: &[State],
    seen: &[Settled],
    sized: &[Settled],
) -> Vec<(usize, Heat)> {
    let lasting: Vec<usize> = (0..states.len())
        .filter(|i| lasts(&states[*i], &seen[*i]))
        .collect();
    let stretches = d.loom.stretches.par_iter();
    let mut found: Vec<usize> = stretches
        .filter_map(|stretch| warmest(d, stretch, (&lasting, seen), sized))
        .collect();
    found.sort_unstable();
    found.dedup();
    found
        .into_par_iter()
        .map(|i| (i, crate::heat::all(d, &seen[i], None)))
        .collect()
}

fn warmest(
    d: &Design,
    stretch: &loom::LoomStretch,
    (lasting, seen): (&[usize], &[Settled]),
    sized: &[Settled],
) -> Option<usize> {
    let amps = |s: &Settled, w: &WireId| s.wire_amps[w.0 as usize].abs();
    let made = |s: &Settled| -> f64 {
        let each = stretch.wires.iter();
        each.map(|w| amps(s, w).powi(2) * d.conductor(*w).ohm_per_m_20)
            .sum()
    };
    let had: Vec<(f64, &Settled)> = sized.iter().map(|s| (made(s), s)).collect();
    let more = |i: &usize| {
        let (s, heat) = (&seen[*i], made(&seen[*i]));
        let worse = |w: &WireId| {
            let covers = |(h, t): &(f64, &Settled)| {
                h * NO_MORE * NO_MORE >= heat && amps(t, w) * NO_MORE >= amps(s, w)
            };
            amps(s, w) > NO_HEAT_AMPS && !had.iter().any(covers)
        };
        stretch.wires.iter().any(worse).then_some((*i, heat))
    };
    let worst = lasting.iter().filter_map(more);
    worst
        .max_by(|a, b| a.1.total_cmp(&b.1).then(b.0.cmp(&a.0)))
        .map(|(i, _)| i)
}

/// Of these states, those whose heat some wire does not bear that bears all it was sized for.
pub(crate) fn too_warm(d: &Design, warmer: &[(usize, Heat)], heat: &Heat) -> Vec<usize> {
    let bears = |w: WireId, kelvin: f64| {
        kelvin <= d.insulation(d.conductor(w)).limit.si() - d.habits.margin_k
    };
    let over = |h: &Heat| {
        d.loom.each_wire().any(|(id, _)| {
            let at = id.0 as usize;
            !bears(id, h.hottest[at]) && bears(id, heat.hottest[at])
        })
    };
    warmer
        .iter()
        .filter(|(_, h)| over(h))
        .map(|(i, _)| *i)
        .collect()
}

/// Whether a wire bears a current, by heat and by table, where it is hottest in any sized state.
fn bears(d: &Design, sized: &[Settled], wire: WireId, amps: f64) -> bool {
    let at = wire.0 as usize;
    let raised: Vec<Settled> = sized
        .iter()
        .map(|s| Settled {
            wire_amps: s
                .wire_amps
                .iter()
                .enumerate()
                .map(|(i, a)| if i == at { amps } else { *a })
                .collect(),
            ..s.clone()
        })
        .collect();
    let case = Case {
        design: d,
        settled: &raised,
        wire,
        conductor: d.conductor(wire),
        quiet: true,
    };
    let own = |v: &&crate::size::Verdict| matches!(v.rule, "heat" | "table");
    let now = |rule: &str, of: &[Settled]| {
        let case = Case {
            settled: of,
            ..case
        };
        judge(&case)
            .iter()
            .filter(own)
            .filter(|v| v.rule == rule)
            .all(crate::size::Verdict::holds)
    };
    // What breaks the rule as sized breaks it whatever is sized for.
    ["heat", "table"]
        .iter()
        .all(|rule| now(rule, &raised) || !now(rule, sized))
}

/// Whether a fuse or switch carries a current, or could not as sized either.
fn carries(d: &Design, sized: &[Settled], part: PartId, amps: f64) -> bool {
    match &d.loom.part(part).kind {
        PartKind::Fuse(_) => {
            let Some((kind, rating)) = d.fuse(part) else {
                return true;
            };
            let ask = fuse::demand(d, sized, part);
            let bears = rating.amps.si() * fuse::continuous(kind, ask.celsius);
            amps <= bears || ask.amps > bears
        }
        PartKind::Switch(_) => {
            let Some(chosen) = d.choice.switches[part.0 as usize] else {
                return true;
            };
            let c = switchgear::carried(d, sized, part);
            let factor = switchgear::factor(d, c.load);
            let rating = d.stock.switches[chosen].rating.si();
            amps * factor <= rating || c.amps * factor > rating
        }
        _ => true,
    }
}

/// What a load sees in one state.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Sight {
    /// The state, index into the states tried.
    pub state: usize,
    /// Volts at its pins.
    pub volts: f64,
    /// Amperes.
    pub amps: f64,
}

/// What a load sees over all states in which it is asked to be on.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Seen {
    /// The fewest volts.
    pub worst: Sight,
    /// The most volts.
    pub best: Sight,
    /// Driving, with as little else on as was tried.
    pub usual: Sight,
}

/// What a load sees; none if no state asks for it.
pub(crate) fn seen(
    d: &Design,
    states: &[State],
    settled: &[Settled],
    load: PartId,
) -> Option<Seen> {
    let p = d.loom.part(load);
    let circuit = p.circuit?;
    let asked: Vec<Sight> = (0..states.len())
        .filter(|i| states[*i].asks(d.loom, circuit))
        // Out on purpose is not a voltage that it sees.
        .filter(|i| {
            d.loom.circuits[circuit]
                .cutout
                .is_none_or(|q| settled[*i].energised[q.0 as usize])
        })
        .filter(|i| settled[*i].rests())
        .map(|i| Sight {
            state: i,
            volts: settled[i].across(p.pins[0], p.pins[1]),
            amps: settled[i].part_amps[load.0 as usize],
        })
        .collect();
    let by_volts = |a: &&Sight, b: &&Sight| a.volts.total_cmp(&b.volts).then(b.state.cmp(&a.state));
    let usual = |s: &&Sight| {
        let state = &states[s.state];
        (
            state.supply != SupplyState::Driving,
            (0..d.loom.circuits.len())
                .filter(|c| state.asks(d.loom, *c))
                .count(),
            s.state,
        )
    };
    Some(Seen {
        worst: *asked
            .iter()
            .min_by(|a, b| a.volts.total_cmp(&b.volts).then(a.state.cmp(&b.state)))?,
        best: *asked.iter().max_by(by_volts)?,
        usual: *asked.iter().min_by_key(usual)?,
    })
}
