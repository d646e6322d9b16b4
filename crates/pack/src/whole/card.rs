//! One side for the glovebox: what was added, where each fuse is, how to isolate it, whom the drawing belongs to.

use crate::content::Align::{Left as L, Right as R};
use crate::content::{Block, Section, Table};
use crate::report::Subject;
use crate::tables::columns;
use loom::PartKind;
use quantity::{Quantity, figures};

pub(super) fn section(s: &Subject) -> Section {
    let job = &s.plan.job;
    let added: Vec<&str> = s.loom.circuits.iter().map(|c| c.name.as_str()).collect();
    let mut rows = Vec::new();
    for (id, part) in s.loom.each_part() {
        let (PartKind::Fuse(f), Some(held)) = (&part.kind, s.answers.choice.fuses[id.0 as usize])
        else {
            continue;
        };
        let place = &s.loom.place(part.place).name;
        let at = f.way.map_or_else(
            || place.clone(),
            |(b, way)| format!("{}, way {way}", s.loom.part(b).label),
        );
        let kind = &s.stock.fuses[held.kind];
        let amps = figures(kind.ratings[held.rating].amps.si(), 3);
        rows.push(vec![
            part.name.clone(),
            at,
            amps,
            kind.name.clone(),
            part.label.clone(),
        ]);
    }
    let table = Table {
        columns: columns(&[
            ("fuse", L),
            ("where", L),
            ("A", R),
            ("class", L),
            ("for", L),
        ]),
        rows,
    };
    let battery = s
        .loom
        .parts
        .iter()
        .find(|p| matches!(p.kind, PartKind::Battery { .. }));
    let battery = battery.map_or("", |p| s.loom.place(p.place).name.as_str());
    let first: Vec<String> = s
        .loom
        .each_part()
        .filter(|(_, p)| {
            matches!(&p.kind, PartKind::Fuse(f) if f.way.is_none()) && p.circuit.is_none()
        })
        .map(|(_, p)| format!("{} at {}", p.name, s.loom.place(p.place).name))
        .collect();
    let bolted = bolted_in_line(s);
    let isolate = match &first[..] {
        [] => format!("To isolate it: the battery’s negative lead off, at {battery}."),
        // A bolted fuse is not undone while its studs are live.
        some if bolted => format!(
            "To isolate it: the battery’s negative lead off, at {battery}; then unbolt {}.",
            some.join(" and ")
        ),
        some => format!(
            "To isolate what was added: draw {}. To isolate everything: the battery’s negative lead off, at {battery}.",
            some.join(" and ")
        ),
    };
    let owner = job.owner.as_deref().unwrap_or("____________");
    let card = vec![
        Block::Heading(job.title.clone()),
        Block::Text(format!("{}. Added: {}.", job.vehicle, added.join(", "))),
        Block::Table(table),
        Block::Text(isolate),
        Block::Text("A fuse that blows is never replaced by a larger one. Everything printed here is from the drawing, not from the vehicle: look before you rely on it.".to_owned()),
        Block::Text(format!("The drawing belongs to {owner}. Date: ____________")),
    ];
    Section {
        id: "card",
        title: "Glovebox card".to_owned(),
        blocks: vec![Block::Card(card)],
    }
}

/// Whether a fuse of the supply side in the line is held by nuts.
fn bolted_in_line(s: &Subject) -> bool {
    let held = s.loom.each_part().zip(&s.answers.choice.fuses);
    let mut held = held.filter_map(|((_, part), held)| {
        let in_line = matches!(&part.kind, PartKind::Fuse(f) if f.way.is_none());
        (*held).filter(|_| in_line && part.circuit.is_none())
    });
    held.any(|held| s.stock.fuses[held.kind].stud().is_some())
}
