//! Readings worked out beforehand, with room for those that are had.

use crate::content::Align::{Left as L, Right as R};
use crate::content::{Block, Section, Table};
use crate::report::Subject;
use crate::tables::columns;
use loom::PartId;
use quantity::figures;
use study::SupplyState;

const SAYS: &str = "Measure at each load’s own pins. A voltage more than 0.3 V below, or a current a tenth away from what is expected, wants looking into \
before the vehicle is used: tolerances of common practice, no document claimed.";
const FIRST: &str = "First with the engine off, only what the line names switched on, the battery charged and rested.";
const WORST: &str = "Then as the line says, where each load gets least: everything that it names switched on, nothing else.";

/// The supply in which it is measured first, as long as the load runs in it.
const CALM: [SupplyState; 4] = [
    SupplyState::Parked,
    SupplyState::KeyOn,
    SupplyState::Idling,
    SupplyState::Driving,
];
/// A load that draws less is off, A.
const OFF: f64 = 1e-3;

pub(super) fn section(s: &Subject) -> Section {
    let calm = s.answers.loads.iter().filter_map(|l| {
        let state = calmest(s, l.part)?;
        let settled = &s.answers.states[state].settled;
        let pins = &s.loom.part(l.part).pins;
        let volts = settled.at(pins[0]) - settled.at(pins[1]);
        Some(row(
            s,
            l.part,
            state,
            (volts, settled.part_amps[l.part.0 as usize]),
        ))
    });
    let worst = s.answers.loads.iter();
    let worst = worst.map(|l| row(s, l.part, l.state, (l.volts, l.amps)));
    Section {
        id: "tests",
        title: "Test sheet".to_owned(),
        blocks: vec![
            Block::Text(SAYS.to_owned()),
            Block::Text(FIRST.to_owned()),
            table(calm.collect()),
            Block::Text(WORST.to_owned()),
            table(worst.collect()),
        ],
    }
}

/// The state in which a load runs with the engine off, if it does, and with as little else as can be.
fn calmest(s: &Subject, load: PartId) -> Option<usize> {
    let runs = |i: &usize| {
        let settled = &s.answers.states[*i].settled;
        settled.failure.is_none() && settled.part_amps[load.0 as usize] > OFF
    };
    let in_supply = |supply: &SupplyState| {
        let states = (0..s.answers.states.len()).filter(runs);
        let states = states.filter(|i| s.answers.states[*i].state.supply == *supply);
        let given = |i: &usize| {
            s.answers.states[*i]
                .settled
                .part_amps
                .iter()
                .map(|a| a.abs())
                .sum::<f64>()
        };
        states.min_by(|a, b| given(a).total_cmp(&given(b)))
    };
    CALM.iter().find_map(in_supply)
}

fn row(s: &Subject, load: PartId, state: usize, (volts, amps): (f64, f64)) -> Vec<String> {
    let part = s.loom.part(load);
    vec![
        format!("{} ({})", part.name, part.label),
        s.answers.states[state].state.name.clone(),
        figures(volts, 3),
        String::new(),
        figures(amps, 3),
        String::new(),
    ]
}

fn table(rows: Vec<Vec<String>>) -> Block {
    Block::Table(Table {
        columns: columns(&[
            ("at", L),
            ("in", L),
            ("expect, V", R),
            ("had, V", R),
            ("expect, A", R),
            ("had, A", R),
        ]),
        rows,
    })
}
