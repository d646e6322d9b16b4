//! The whole reason of one wire, fuse or part.

use crate::content::{Align, Block, Section, Table};
use crate::report::Subject;
use crate::{seen, tables};
use quantity::{Quantity, figures};
use study::{LoadAnswer, Verdict, WireAnswer};

/// Why the thing of this name is as it is; none if nothing bears the name.
pub fn why(s: &Subject, name: &str) -> Option<Section> {
    if let Some(id) = s.loom.wire_named(name) {
        let answer = s.answers.wires.iter().find(|a| a.wire == id)?;
        return Some(wire(s, answer));
    }
    let part = s.loom.part_named(name)?;
    let p = s.loom.part(part);
    let mut blocks = vec![Block::Text(format!(
        "{}: {}, at {}.",
        p.name,
        p.label,
        s.loom.place(p.place).name
    ))];
    let fuse = s.answers.fuses.iter().find(|a| a.part == part);
    let gear = s.answers.parts.iter().find(|a| a.part == part);
    if let Some(f) = fuse {
        let kind = &s.stock.fuses[f.kind];
        let protects: Vec<_> = f
            .protects
            .iter()
            .map(|w| s.loom.wire(*w).name.as_str())
            .collect();
        blocks.push(Block::Text(format!(
            "{} A {}; it protects {}.",
            figures(f.rating_a, 3),
            kind.name,
            protects.join(", ")
        )));
        blocks.push(Block::List(f.why.clone()));
    }
    if let Some(g) = gear {
        blocks.push(Block::Text(format!("{}.", g.class)));
        blocks.push(Block::List(g.why.clone()));
    }
    if let Some(l) = s.answers.loads.iter().find(|a| a.part == part) {
        blocks.extend(load(s, l));
    }
    blocks.extend(found(s, name));
    Some(Section {
        id: "why",
        title: format!("Why {name}"),
        blocks,
    })
}

/// What a load sees, at its worst and over all states, and where its volts go.
fn load(s: &Subject, l: &LoadAnswer) -> [Block; 4] {
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

fn found(s: &Subject, name: &str) -> Option<Block> {
    let here: Vec<_> = s
        .answers
        .findings
        .iter()
        .filter(|f| f.names().iter().any(|n| n == name))
        .cloned()
        .collect();
    (!here.is_empty()).then_some(Block::Findings(here))
}

fn wire(s: &Subject, a: &WireAnswer) -> Section {
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
    match &a.smaller {
        Some((smaller, broken)) if !broken.is_empty() => {
            blocks.push(Block::Text(format!("One size smaller, {}, would break:", s.stock.conductors[*smaller].id)));
            blocks.push(Block::Table(verdicts(broken)));
        }
        Some((smaller, _)) => blocks.push(Block::Text(format!(
            "One size smaller, {}, breaks no rule of its own; together with the other wires it was needed.",
            s.stock.conductors[*smaller].id
        ))),
        None if w.set.size.is_some() => blocks.push(Block::Text("Its size is set in the plan.".into())),
        None => blocks.push(Block::Text("There is no smaller wire of its kind that may be used.".into())),
    }
    blocks.extend(found(s, &w.name));
    Section {
        id: "why",
        title: format!("Why {}", w.name),
        blocks,
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
