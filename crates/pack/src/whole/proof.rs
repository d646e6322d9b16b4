//! Readings worked out beforehand, with room for those that are had.

use crate::content::Align::{Left as L, Right as R};
use crate::content::{Block, Section, Table};
use crate::report::Subject;
use crate::tables::columns;
use quantity::figures;

const SAYS: &str = "Measure at each load’s own pins, everything that the line names switched on, nothing else. A voltage more than 0.3 V below, or a current a tenth \
away from what is expected, wants looking into before the vehicle is used: tolerances of common practice, no document claimed.";

pub(super) fn section(s: &Subject) -> Section {
    let mut rows = Vec::new();
    for l in &s.answers.loads {
        let part = s.loom.part(l.part);
        rows.push(vec![
            format!("{} ({})", part.name, part.label),
            s.answers.states[l.state].state.name.clone(),
            figures(l.volts, 3),
            String::new(),
            figures(l.amps, 3),
            String::new(),
        ]);
    }
    let table = Table {
        columns: columns(&[
            ("at", L),
            ("in", L),
            ("expect, V", R),
            ("had, V", R),
            ("expect, A", R),
            ("had, A", R),
        ]),
        rows,
    };
    Section {
        id: "tests",
        title: "Test sheet".to_owned(),
        blocks: vec![Block::Text(SAYS.to_owned()), Block::Table(table)],
    }
}
