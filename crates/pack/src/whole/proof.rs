//! Readings worked out beforehand, with room for those that are had.

use crate::content::Align::{Left as L, Right as R};
use crate::content::{Block, Section, Table};
use crate::report::Subject;
use crate::tables::columns;
use loom::PartId;
use quantity::figures;

const SAYS: &str = "Measure at each load’s own pins. A voltage more than 0.3 V below, or a current a tenth away from what is expected, wants looking into \
before the vehicle is used: tolerances of common practice, no document claimed.";
const FIRST: &str = "First with the engine off where it runs then, only what the line names switched on, the battery charged and rested.";
const WORST: &str = "Then as the line says, where each load gets least: everything that it names switched on, nothing else.";

pub(super) fn section(s: &Subject) -> Section {
    let calm = s.answers.loads.iter().filter_map(|l| {
        let first = study::first_reading(s.loom, s.answers, l.part)?;
        Some(row(s, l.part, &first.state.name, (first.volts, first.amps)))
    });
    let worst = s.answers.loads.iter();
    let worst = worst.map(|l| {
        let state = &s.answers.states[l.state].state;
        row(s, l.part, &state.name, (l.volts, l.amps))
    });
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

fn row(s: &Subject, load: PartId, state: &str, (volts, amps): (f64, f64)) -> Vec<String> {
    let part = s.loom.part(load);
    vec![
        format!("{} ({})", part.name, part.label),
        state.to_owned(),
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
