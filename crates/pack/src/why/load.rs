//! What a load gets, and where its volts go.

use crate::content::{Align, Block, Table};
use crate::report::Subject;
use crate::{seen, tables};
use quantity::figures;
use study::LoadAnswer;

/// What a load sees, at its worst and over all states, and where its volts go.
pub(super) fn blocks(s: &Subject, l: &LoadAnswer) -> [Block; 4] {
    [
        Block::Text(format!(
            "It gets {:.2} V and draws {} A ({}); {:.2} % is lost on the way, of {} % allowed.",
            l.volts,
            figures(l.amps, 3),
            s.answers.states[l.state].state.name,
            l.drop_percent,
            figures(l.limit_percent, 3)
        )),
        Block::List(seen::lines(s, l)),
        Block::Text("Where its volts go, from the battery out and back:".into()),
        Block::Table(way(s, l)),
    ]
}

/// The wires on a load's way with what each loses at the load's worst.
fn way(s: &Subject, l: &LoadAnswer) -> Table {
    let rows = l.way.iter().map(|(wire, volts)| {
        let w = s.loom.wire(*wire);
        let size = s.stock.conductors[s.answers.choice.wires[wire.0 as usize]]
            .size
            .to_string();
        vec![
            w.name.clone(),
            s.loom.pin_name(w.from),
            s.loom.pin_name(w.to),
            size,
            format!("{volts:.3}"),
        ]
    });
    let total: f64 = l.way.iter().map(|(_, v)| v).sum();
    let lost = l.drop_percent / 100.0 * s.plan.supply.system.nominal();
    let mut rows: Vec<Vec<String>> = rows.collect();
    let rest = format!("{:.3}", (lost - total).max(0.0));
    rows.push(vec![
        "the rest".into(),
        "fuses, contacts, plugs, body".into(),
        String::new(),
        String::new(),
        rest,
    ]);
    Table {
        columns: tables::columns(&[
            ("wire", Align::Left),
            ("from", Align::Left),
            ("to", Align::Left),
            ("size", Align::Right),
            ("V lost, with its joints", Align::Right),
        ]),
        rows,
    }
}
