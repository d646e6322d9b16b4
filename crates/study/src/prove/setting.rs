//! What is switched on while one measures: everything off; each circuit alone, with the engine off where it runs then; and
//! everything at once with the engine running.

use crate::answers::{Answers, StateAnswer};
use crate::design::Design;
use crate::look::Chosen;
use crate::network::Piece;
use crate::state::{Position, State};
use plan::SupplyState;

/// A state that somebody brings about to measure in it.
#[derive(Clone, Debug)]
pub struct Setting {
    /// The state.
    pub state: State,
    /// The circuit that it is for; none of one for the whole.
    pub circuit: Option<usize>,
    /// What it takes to bring it about, min.
    pub minutes: f64,
}

/// The supplies to measure in, the calmest first.
const CALM: [SupplyState; 4] = [
    SupplyState::Parked,
    SupplyState::KeyOn,
    SupplyState::Idling,
    SupplyState::Driving,
];
/// A switch is turned, min; the engine started: our own, no source.
const TURN: f64 = 0.3;
const START: f64 = 1.5;
/// Part of what the alternator gives that it carries with ease: our own.
const EASE: f64 = 0.7;

/// The settings of a loom: what rests first, then each circuit, then everything with the engine running, if it can.
pub(super) fn all(d: &Design, answers: &Answers) -> Vec<Setting> {
    let rest = Chosen::at_rest(d.loom).state(d.loom);
    let mut found = vec![Setting {
        state: rest,
        circuit: None,
        minutes: 0.0,
    }];
    for circuit in 0..d.loom.circuits.len() {
        if let Some(state) = alone(d, circuit) {
            let minutes = minutes(&state);
            found.push(Setting {
                state,
                circuit: Some(circuit),
                minutes,
            });
        }
    }
    found.extend(running(d, answers));
    found
}

/// The engine fast, as while driving, with as much on as the alternator carries with ease: beyond it the posts are anywhere
/// between what it is set to and what the battery holds, and tell nothing.
fn running(d: &Design, answers: &Answers) -> Option<Setting> {
    let most = d.supply.alternator_amps(SupplyState::Driving)? * EASE;
    let runs = |s: &&StateAnswer| s.state.supply == SupplyState::Driving && s.settled.rests();
    let drawn = |s: &StateAnswer| crate::with_network_of(d, answers, s).through(Piece::Alternator);
    let states = answers.states.iter().filter(runs).map(|s| (s, drawn(s)));
    let carried = states.filter(|(_, amps)| *amps <= most);
    let state = match carried.max_by(|a, b| a.1.total_cmp(&b.1)) {
        Some((s, _)) => s.state.clone(),
        None => {
            let mut rest = Chosen::at_rest(d.loom);
            rest.supply = SupplyState::Driving;
            rest.state(d.loom)
        }
    };
    Some(Setting {
        minutes: minutes(&state),
        state,
        circuit: None,
    })
}

fn minutes(state: &State) -> f64 {
    match state.supply.runs() {
        true => TURN + START,
        false => TURN,
    }
}

/// A circuit alone, in the calmest supply in which it runs; none of one that never does.
fn alone(d: &Design, circuit: usize) -> Option<State> {
    let c = &d.loom.circuits[circuit];
    let signals = [
        c.only.clone(),
        c.only.iter().chain(&c.auto).copied().collect(),
    ];
    let ways = [Position::On, Position::Auto];
    for supply in CALM {
        for position in ways {
            for signals in &signals {
                let mut chosen = Chosen::at_rest(d.loom);
                chosen.supply = supply;
                chosen.positions[circuit] = position;
                chosen.signals.clone_from(signals);
                let state = chosen.state(d.loom);
                if state.asks(d.loom, circuit) {
                    return Some(state);
                }
            }
        }
    }
    None
}
