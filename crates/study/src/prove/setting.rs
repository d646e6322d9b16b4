//! What is switched on while one measures: everything off; each circuit alone, with the engine off where it runs then; and
//! everything at once with the engine running.

use crate::answers::Answers;
use crate::design::Design;
use crate::look::Chosen;
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
    let all_amps = |s: &&crate::StateAnswer| {
        s.settled.given.abs() + s.settled.part_amps.iter().map(|a| a.abs()).sum::<f64>()
    };
    let running = answers.states.iter();
    let running = running.filter(|s| s.state.supply == SupplyState::Idling && s.settled.rests());
    if let Some(most) = running.max_by(|a, b| all_amps(a).total_cmp(&all_amps(b))) {
        found.push(Setting {
            state: most.state.clone(),
            circuit: None,
            minutes: minutes(&most.state),
        });
    }
    found
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
