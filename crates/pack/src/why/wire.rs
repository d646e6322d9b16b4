//! The whole reason of a wire: its way, its copper, what it carries, every rule, and what a smaller one would break.

use crate::content::{Align, Block, Table};
use crate::report::Subject;
use crate::tables;
use quantity::{Quantity, figures};
use study::{Verdict, WireAnswer};

/// Everything of one wire but the findings about it.
pub(super) fn blocks(s: &Subject, a: &WireAnswer) -> Vec<Block> {
    let w = s.loom.wire(a.wire);
    let c = &s.stock.conductors[a.conductor];
    let places: Vec<_> = w
        .places
        .iter()
        .map(|p| s.loom.place(*p).name.as_str())
        .collect();
    let mut blocks = vec![
        Block::Text(format!(
            "{} runs from {} to {} by {}; cut {}, {}, colour {}.",
            w.name,
            s.loom.pin_name(w.from),
            s.loom.pin_name(w.to),
            places.join(", "),
            w.cut.show(),
            c.id,
            w.colour
        )),
        Block::Text(format!(
            "Copper {}, at most {} mΩ/m at 20 °C ({}).",
            c.area.show(),
            figures(c.ohm_per_m_20 * 1e3, 4),
            c.origin
        )),
        Block::Text(format!(
            "It carries up to {} A and reaches {:.0} °C of {:.0} °C, with {:.0} °C around it.",
            figures(a.amps, 3),
            a.celsius,
            a.limit_celsius,
            a.around_celsius
        )),
        Block::Text("Every rule, the tightest first:".into()),
        Block::Table(verdicts(&a.verdicts)),
    ];
    blocks.extend(smaller(s, a));
    blocks
}

/// What one size smaller would break.
fn smaller(s: &Subject, a: &WireAnswer) -> Vec<Block> {
    let text = |t: String| vec![Block::Text(t)];
    let id = |c: &usize| &s.stock.conductors[*c].id;
    match &a.smaller {
        Some((smaller, broken)) if !broken.is_empty() => vec![
            Block::Text(format!("One size smaller, {}, would break:", id(smaller))),
            Block::Table(verdicts(broken)),
        ],
        Some((smaller, _)) => text(format!(
            "One size smaller, {}, breaks no rule of its own; together with the other wires it was needed.",
            id(smaller)
        )),
        None if s.loom.wire(a.wire).set.size.is_some() => {
            text("Its size is set in the plan.".into())
        }
        None => text("There is no smaller wire of its kind that may be used.".into()),
    }
}

fn verdicts(list: &[Verdict]) -> Table {
    let rows = list.iter().map(|v| {
        vec![
            v.rule.to_owned(),
            format!("{:.0} %", v.margin * 100.0),
            v.says.clone(),
            v.source.clone(),
        ]
    });
    Table {
        columns: tables::columns(&[
            ("rule", Align::Left),
            ("margin", Align::Right),
            ("figures", Align::Left),
            ("source", Align::Left),
        ]),
        rows: rows.collect(),
    }
}
