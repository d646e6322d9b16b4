//! In which state a load is measured first: with the engine off if it runs then, and with as little else on as can be.

use crate::answers::Answers;
use crate::state::State;
use loom::{Loom, PartId};
use plan::SupplyState;

/// What a load is to read.
#[derive(Clone, Copy, Debug)]
pub struct Reading<'a> {
    /// In this state.
    pub state: &'a State,
    /// Volts at its own pins.
    pub volts: f64,
    /// Amperes.
    pub amps: f64,
}

/// The supplies, the calmest first. While the starter turns nothing is measured.
const CALM: [SupplyState; 4] = [
    SupplyState::Parked,
    SupplyState::KeyOn,
    SupplyState::Idling,
    SupplyState::Driving,
];
/// A load that draws less is off, A.
const OFF: f64 = 1e-3;

/// The first reading of a load; none of one that runs in no state.
pub fn first_reading<'a>(loom: &Loom, answers: &'a Answers, load: PartId) -> Option<Reading<'a>> {
    let at = load.0 as usize;
    let circuit = loom.part(load).circuit?;
    // What glows by a path that nobody asked for is no reading of it.
    let runs = |s: &&crate::StateAnswer| {
        s.settled.rests() && s.state.asks(loom, circuit) && s.settled.part_amps[at] > OFF
    };
    let all = |s: &crate::StateAnswer| s.settled.part_amps.iter().map(|a| a.abs()).sum::<f64>();
    let in_supply = |supply: &SupplyState| {
        let states = answers.states.iter().filter(runs);
        let states = states.filter(|s| s.state.supply == *supply);
        states.min_by(|a, b| all(a).total_cmp(&all(b)))
    };
    let found = CALM.iter().find_map(in_supply)?;
    let pins = &loom.part(load).pins;
    Some(Reading {
        state: &found.state,
        volts: found.settled.at(pins[0]) - found.settled.at(pins[1]),
        amps: found.settled.part_amps[at],
    })
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::Habits;

    #[test]
    fn the_farms_lamps_are_measured_with_the_engine_off_and_the_pump_off() {
        let stock = stock::Stock::embedded();
        let plan = plan::Plan::read(include_str!("../../../examples/farm.toml")).0;
        let plan = plan.unwrap();
        let loom = loom::build(&plan, &stock).0.unwrap();
        let habits = Habits::of(&plan, &loom, &stock).quick();
        let answers = crate::study(&loom, &stock, &habits);
        let load = loom.circuits[0].loads[0];
        let first = first_reading(&loom, &answers, load).unwrap();
        assert_eq!(first.state.name, "parked, rack lamps on");
        // A rested battery gives 12 V and some; a lamp of 55 W at 13.5 V draws less than 4.07 A there.
        assert!((11.0..12.8).contains(&first.volts), "{first:?}");
        assert!((3.5..4.07).contains(&first.amps), "{first:?}");
    }
}
