//! The whole reason of one wire, fuse or part, or of the parts of one circuit. A name is found in any case.

mod cutout;
mod load;
mod wire;

use crate::content::{Block, Section};
use crate::report::Subject;
use loom::{LoomCircuit, PartId, PartKind, WireId};
use quantity::figures;

/// What bears a name.
enum Named<'a> {
    Wire(WireId),
    Part(PartId),
    Circuit(&'a LoomCircuit),
}

/// Why the thing of this name is as it is; none if nothing bears the name.
pub fn why(s: &Subject, name: &str) -> Option<Section> {
    let (called, mut blocks, names) = match named(s, name)? {
        Named::Wire(id) => {
            let answer = s.answers.wires.iter().find(|a| a.wire == id)?;
            let called = s.loom.wire(id).name.as_str();
            (called, wire::blocks(s, answer), vec![called])
        }
        Named::Part(id) => {
            let called = s.loom.part(id).name.as_str();
            (called, part(s, id), vec![called])
        }
        Named::Circuit(c) => {
            let parts = parts(c);
            let blocks = parts.iter().flat_map(|id| part(s, *id)).collect();
            let of = parts.iter().map(|id| s.loom.part(*id).name.as_str());
            let names = std::iter::once(c.name.as_str()).chain(of);
            (c.name.as_str(), blocks, names.collect())
        }
    };
    blocks.extend(found(s, &names));
    Some(Section {
        id: "why",
        title: format!("Why {called}"),
        blocks,
    })
}

/// What bears this name: as it is written, or else in any case.
fn named<'a>(s: &Subject<'a>, name: &str) -> Option<Named<'a>> {
    let lower = name.trim().to_lowercase();
    let exactly = |n: &str| n == name;
    let in_any_case = |n: &str| n.to_lowercase() == lower;
    let found = |same: &dyn Fn(&str) -> bool| {
        let mut wires = s.loom.each_wire().filter(|(_, w)| same(&w.name));
        let mut parts = s.loom.each_part().filter(|(_, p)| same(&p.name));
        let mut circuits = s.loom.circuits.iter().filter(|c| same(&c.name));
        let wire = wires.next().map(|(id, _)| Named::Wire(id));
        let part = || parts.next().map(|(id, _)| Named::Part(id));
        wire.or_else(part)
            .or_else(|| circuits.next().map(Named::Circuit))
    };
    found(&exactly).or_else(|| found(&in_any_case))
}

/// The parts of a circuit that have a reason, from its source on.
fn parts(c: &LoomCircuit) -> Vec<PartId> {
    let first = [c.fuse, c.cutout, c.relay].into_iter().flatten();
    let then = c.conditions.iter().copied().chain(c.switch);
    first.chain(then).chain(c.loads.iter().copied()).collect()
}

/// Everything of one part but the findings about it.
fn part(s: &Subject, id: PartId) -> Vec<Block> {
    let p = s.loom.part(id);
    let place = &s.loom.place(p.place).name;
    let mut blocks = vec![Block::Text(format!("{}: {}, at {place}.", p.name, p.label))];
    if let Some(f) = s.answers.fuses.iter().find(|a| a.part == id) {
        let kind = &s.stock.fuses[f.kind].name;
        let wires = f.protects.iter().map(|w| s.loom.wire(*w).name.as_str());
        let protects = wires.collect::<Vec<_>>().join(", ");
        blocks.push(Block::Text(format!(
            "{} A {kind}; it protects {protects}.",
            figures(f.rating_a, 3)
        )));
        blocks.push(Block::List(f.why.clone()));
    }
    if let Some(g) = s.answers.parts.iter().find(|a| a.part == id) {
        blocks.push(Block::Text(format!("{}.", g.class)));
        blocks.push(Block::List(g.why.clone()));
    }
    if let PartKind::Cutout(c) = &p.kind {
        blocks.push(Block::List(cutout::lines(s, id, c)));
    }
    if let Some(l) = s.answers.loads.iter().find(|a| a.part == id) {
        blocks.extend(load::blocks(s, l));
    }
    blocks
}

/// The findings about any of these.
fn found(s: &Subject, names: &[&str]) -> Option<Block> {
    let about = |f: &&finding::Finding| f.names().iter().any(|n| names.contains(&n.as_str()));
    let here: Vec<_> = s.answers.findings.iter().filter(about).cloned().collect();
    (!here.is_empty()).then_some(Block::Findings(here))
}
