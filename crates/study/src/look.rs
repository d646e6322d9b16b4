//! A state that somebody chose, solved: what flows, what is live, what is on.

use crate::answers::{Answers, StateAnswer};
use crate::design::{Design, Habits};
use crate::settle::{self, View};
use crate::state::{Position, State};
use loom::{Loom, PartId, PartKind};
use plan::SupplyState;
use stock::Stock;

/// What somebody chose: the supply, the switches by circuit, the signals that are there.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Chosen {
    /// What the vehicle does.
    pub supply: SupplyState,
    /// By circuit. One without a switch is on whatever is said; auto is for switches of three positions.
    pub positions: Vec<Position>,
    /// The vehicle's signals that are there.
    pub signals: Vec<PartId>,
}

impl Chosen {
    /// Everything off, the engine off.
    pub fn at_rest(loom: &Loom) -> Self {
        Self {
            supply: SupplyState::Parked,
            positions: vec![Position::Off; loom.circuits.len()],
            signals: Vec::new(),
        }
    }

    /// The position of a circuit's switch after one press: off, auto where there is one, on, off.
    pub fn pressed(&self, loom: &Loom, circuit: usize) -> Self {
        let three = loom.circuits[circuit].auto.is_some();
        let mut next = self.clone();
        next.positions[circuit] = match self.positions[circuit] {
            Position::Off if three => Position::Auto,
            Position::Off | Position::Auto => Position::On,
            Position::On => Position::Off,
        };
        next
    }

    /// The state, with what can't be chosen put right.
    pub(crate) fn state(&self, loom: &Loom) -> State {
        let right = |(i, c): (usize, &loom::LoomCircuit)| {
            let said = self.positions.get(i).copied().unwrap_or(Position::Off);
            match said {
                _ if c.switch.is_none() => Position::On,
                Position::Auto if c.auto.is_none() => Position::Off,
                said => said,
            }
        };
        let positions = loom.circuits.iter().enumerate().map(right).collect();
        let signal = |id: &PartId| {
            let part = loom.parts.get(id.0 as usize);
            part.is_some_and(|p| matches!(p.kind, PartKind::Signal(_)))
        };
        let signals = self.signals.iter().copied().filter(signal).collect();
        State::new(loom, self.supply, positions, signals)
    }
}

/// The state that was chosen, solved; its wires as warm as they get in it, or cold while the starter turns.
pub fn look(
    loom: &Loom,
    stock: &Stock,
    habits: &Habits,
    answers: &Answers,
    chosen: &Chosen,
) -> StateAnswer {
    let mut design = Design::new(loom, stock, habits);
    design.choice = answers.choice.clone();
    let state = chosen.state(loom);
    let view = View {
        today: true,
        ..View::default()
    };
    let glance = settle::glance_as(&design, &state, view, &answers.heat, None);
    if state.supply == SupplyState::Cranking || !glance.rests() {
        let settled = glance;
        return StateAnswer { state, settled };
    }
    // Relays and cut-outs as they were found, then as warm as that makes the wires.
    let warm = settle::settle_as(&design, &state, view, Some(&glance));
    let settled = match warm.energised == glance.energised {
        true => warm,
        // Warming holds cut-outs where they are: what it finds with others is not how the circuit stands.
        false => glance,
    };
    StateAnswer { state, settled }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// The farm with no free way kept for later: what is looked at is what flows today.
    fn farm() -> (Loom, Stock, Habits, Answers) {
        let stock = Stock::embedded();
        let plan = plan::Plan::read(
            &include_str!("../../../examples/farm.toml").replace("spare = \"10 A\"", "# none"),
        )
        .0;
        let plan = plan.unwrap();
        let loom = loom::build(&plan, &stock).0.unwrap();
        let habits = Habits::of(&plan, &loom, &stock).quick();
        let answers = crate::study(&loom, &stock, &habits);
        (loom, stock, habits, answers)
    }

    #[test]
    fn a_chosen_state_is_what_the_study_found_of_it() {
        let (loom, stock, habits, answers) = farm();
        for found in &answers.states {
            let chosen = Chosen {
                supply: found.state.supply,
                positions: found.state.positions.clone(),
                signals: found.state.signals.clone(),
            };
            let seen = look(&loom, &stock, &habits, &answers, &chosen);
            assert_eq!(seen.state, found.state);
            for (a, b) in seen.settled.wire_amps.iter().zip(&found.settled.wire_amps) {
                // The study looks at most states with the wires as warm as in their worst.
                assert!(
                    (a - b).abs() <= 0.02 * b.abs() + 1e-3,
                    "{a} {b} in {}",
                    found.state.name
                );
            }
            assert_eq!(seen.settled.energised, found.settled.energised);
        }
    }

    #[test]
    fn a_press_turns_on_and_off_again() {
        let (loom, ..) = farm();
        let rest = Chosen::at_rest(&loom);
        let on = rest.pressed(&loom, 0);
        assert_eq!(on.positions, [Position::On, Position::Off]);
        assert_eq!(on.pressed(&loom, 0), rest);
    }
}
