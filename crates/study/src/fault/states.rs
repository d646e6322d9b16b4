//! The states that matter to a fault: of all that are alike to it, one. Alike are states in which its own circuits
//! are turned and asked alike, its own signals are there, and the engine runs or not. Of those with the engine
//! running the one with most on is taken (its loom is hottest), of the others the one with least on (a short gets
//! most, and nothing but the fault drains). What a loss does to other circuits the study of sneak paths has found.

use super::Case;
use crate::answers::Answers;
use crate::design::Design;
use crate::lost::Lost;
use crate::state::{Position, State};
use loom::PartId;
use plan::SupplyState;
use std::collections::BTreeMap;

/// What of a state matters to a fault.
#[derive(Clone, PartialEq, Eq, PartialOrd, Ord)]
struct Key {
    /// By circuit of the fault: how it is turned, and whether it is asked for.
    circuits: Vec<(Position, bool)>,
    /// Signals that these circuits listen to, and that are there.
    signals: Vec<PartId>,
    /// Running before off: what is off may follow from what it does running.
    off: bool,
    cranked: bool,
}

/// A state that a fault is tried in.
pub(super) struct Chosen {
    /// Index among the answers' states.
    pub state: usize,
    /// The one before it is alike but that the engine runs, which gives every short more; and nothing but the fault
    /// is on, so that a drain would show only here.
    pub follows: bool,
}

impl Chosen {
    /// One by itself.
    pub(super) fn alone(state: usize) -> Self {
        Self {
            state,
            follows: false,
        }
    }
}

/// The states that matter to a case: those that differ in what is its own, and those in which the study has found that its
/// loss turns on something else.
pub(super) fn matter(
    d: &Design,
    case: &Case,
    states: &[(usize, &State)],
    answers: &Answers,
) -> Vec<Chosen> {
    let mut chosen = by_its_own(d, case, states);
    let lost = case.changes.first().map_or(Lost::Nothing, |c| c.lost);
    let wakes = answers.sneaks.iter().filter(|s| s.lost == lost);
    for sneak in wakes.filter(|s| s.lost != Lost::Nothing) {
        if chosen.iter().all(|c| c.state != sneak.state) {
            chosen.push(Chosen::alone(sneak.state));
        }
    }
    chosen
}

fn by_its_own(d: &Design, case: &Case, states: &[(usize, &State)]) -> Vec<Chosen> {
    let mut kept: BTreeMap<Key, (i64, usize)> = BTreeMap::new();
    for &(index, state) in states {
        if !case.supplies.includes(state.supply) {
            continue;
        }
        let key = key(d, case, state);
        let rank = rank(d, case, state);
        let best = kept.entry(key).or_insert((rank, index));
        if rank > best.0 {
            *best = (rank, index);
        }
    }
    let mut chosen: Vec<Chosen> = Vec::new();
    let mut before: Option<&Key> = None;
    for (key, &(_, state)) in &kept {
        let twin = |b: &Key| b.circuits == key.circuits && b.signals == key.signals && !b.off;
        chosen.push(Chosen {
            state,
            follows: key.off && before.is_some_and(twin),
        });
        before = Some(key);
    }
    if case.circuits.is_empty() {
        let off = at_rest(d, case, states).filter(|o| chosen.iter().all(|c| c.state != *o));
        chosen.extend(off.map(Chosen::alone));
    }
    chosen
}

/// Of alike states the one that ranks highest is tried.
fn rank(d: &Design, case: &Case, state: &State) -> i64 {
    let on = (0..d.loom.circuits.len()).filter(|c| state.asks(d.loom, *c));
    let on = on.count() as i64;
    let usual = matches!(state.supply, SupplyState::Parked | SupplyState::Driving);
    // What concerns the whole supply is tried with everything on, whatever runs.
    match state.supply.runs() || case.circuits.is_empty() {
        true => 2 * on + i64::from(usual),
        false => i64::from(usual) - 2 * on,
    }
}

/// For what concerns the whole supply: also with everything off.
fn at_rest(d: &Design, case: &Case, states: &[(usize, &State)]) -> Option<usize> {
    let off = states.iter().find(|(_, s)| {
        s.supply == SupplyState::Parked && s.turned_on(d.loom) == 0 && s.signals.is_empty()
    });
    off.filter(|_| case.supplies.includes(SupplyState::Parked))
        .map(|(index, _)| *index)
}

fn key(d: &Design, case: &Case, state: &State) -> Key {
    let circuits = case.circuits.iter();
    let heard = |s: &&PartId| {
        case.circuits.iter().any(|c| {
            let c = &d.loom.circuits[*c];
            c.only.contains(s) || c.unless.contains(s) || c.auto == Some(**s)
        })
    };
    Key {
        off: !state.supply.runs(),
        cranked: state.supply == SupplyState::Cranking,
        circuits: circuits
            .map(|c| (state.positions[*c], state.asks(d.loom, *c)))
            .collect(),
        signals: state.signals.iter().filter(heard).copied().collect(),
    }
}
