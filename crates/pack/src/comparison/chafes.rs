//! What happens in each plan when a switch's wire chafes through to the body: circuit by circuit, where the two
//! plans differ.

use super::{Two, column, forms};
use crate::content::{Align, Block, Section, Table};
use crate::report::Subject;
use crate::words::{amps, counted, several};
use finding::joined;
use loom::{PartId, PartKind};
use quantity::figures;
use std::collections::BTreeSet;
use study::{Chafe, Limits, Touch};

/// Every switch's wires.
pub(super) fn section(two: &Two) -> Section {
    let title = "If a switch's wire chafes through to the body";
    let chafes = &two.compared.chafes;
    if chafes.iter().all(Vec::is_empty) {
        let says = "Neither plan has a switch.";
        return Section::of("chafe", title, Block::Text(says.into()));
    }
    let told = [0, 1].map(|i| {
        let list = &chafes[i];
        let on = |c: &&Chafe| matches!(c.off, Touch::TurnsOn(_));
        let count = list.iter().filter(on).count();
        let wires = counted(list.len(), "switch wire", "switch wires");
        format!("{count} of {wires} in “{}”", two.names[i])
    });
    let [first, second] = told;
    let mut blocks = vec![Block::Text(format!(
        "With its switch off, a touch of the body turns something on at {first}, and at {second}."
    ))];
    let differ = differ(two);
    if !differ.is_empty() {
        blocks.push(Block::Table(table(two, &differ)));
    }
    blocks.extend(alike(two, &differ).map(Block::Text));
    blocks.extend(reckoned());
    blocks.extend(forms::conclusion(two, &differ).map(Block::Text));
    Section {
        id: "chafe",
        title: title.into(),
        blocks,
    }
}

/// What it is reckoned with, and on whose word.
fn reckoned() -> [Block; 2] {
    let limits = Limits::default();
    let row = |what: &str, name: &str| {
        let r = limits.row(name);
        format!("{what} {} {}; {}", figures(r.value, 3), r.unit, r.cite())
    };
    let rows = [
        row("a touch of the body:", "touch"),
        row("a fuse counts as opening at", "fuse opens"),
        row(
            "where the plan does not say the vehicle's own fuse, a short is",
            "short through an unknown fuse",
        ),
    ];
    [
        Block::Text("Reckoned with:".into()),
        Block::List(rows.into()),
    ]
}

/// The circuits with a switch in either plan, the first's first.
fn circuits<'a>(two: &Two<'a>) -> Vec<&'a str> {
    let mut names: Vec<&str> = Vec::new();
    for s in two.sides {
        for c in s.loom.circuits.iter().filter(|c| c.switch.is_some()) {
            if !names.contains(&c.name.as_str()) {
                names.push(&c.name);
            }
        }
    }
    names
}

/// Those in which the plans differ: by what the switch breaks, or by what a touch does.
pub(super) fn differ<'a>(two: &Two<'a>) -> Vec<&'a str> {
    let [a, b] = two.sides;
    let apart = |circuit: &&str| {
        forms::breaks(a, circuit) != forms::breaks(b, circuit)
            || happens(two, 0, circuit) != happens(two, 1, circuit)
    };
    circuits(two).into_iter().filter(apart).collect()
}

/// "The others are alike in both: transfer pump."
fn alike(two: &Two, differ: &[&str]) -> Option<String> {
    let mut same = circuits(two);
    same.retain(|c| !differ.contains(c));
    match (same.is_empty(), differ.is_empty()) {
        (true, _) => None,
        (_, true) => Some("Every circuit with a switch is alike in both.".to_owned()),
        _ => Some(format!(
            "The same happens in both in the other circuits with a switch: {}.",
            joined(&same)
        )),
    }
}

/// The touches of a circuit's wires in one plan.
pub(super) fn touches<'a>(
    two: &Two<'a>,
    side: usize,
    circuit: &str,
) -> impl Iterator<Item = &'a Chafe> {
    let s = two.sides[side];
    let here = move |c: &&Chafe| circuit_of(s, c) == Some(circuit);
    two.compared.chafes[side].iter().filter(here)
}

/// What may happen in a circuit, without figures.
fn happens(two: &Two, side: usize, circuit: &str) -> BTreeSet<[String; 2]> {
    let s = two.sides[side];
    let kind = |t: &Touch| match t {
        // Names of fuses follow their circuits' numbers, which may differ.
        Touch::Opens { .. } => "a fuse opens".to_owned(),
        Touch::OpensVehicles { .. } => "the vehicle's own opens".to_owned(),
        other => words(s, other),
    };
    let each = touches(two, side, circuit);
    each.map(|c| [kind(&c.off), kind(&c.on)]).collect()
}

fn table(two: &Two, circuits: &[&str]) -> Table {
    let mut rows = Vec::new();
    for circuit in circuits {
        for i in [0, 1] {
            let (s, name) = (two.sides[i], two.names[i]);
            rows.extend(touches(two, i, circuit).map(|c| row(s, name, circuit, c)));
        }
    }
    let columns = [
        "circuit",
        "plan",
        "wire",
        "with its switch off",
        "with it on",
    ];
    Table {
        columns: columns.map(|t| column(t, Align::Left)).to_vec(),
        rows,
    }
}

fn circuit_of<'a>(s: &Subject<'a>, c: &Chafe) -> Option<&'a str> {
    let circuit = s.loom.wire(c.wire).circuit?;
    Some(&s.loom.circuits[circuit].name)
}

fn row(s: &Subject, plan: &str, circuit: &str, c: &Chafe) -> Vec<String> {
    let w = s.loom.wire(c.wire);
    vec![
        circuit.to_owned(),
        plan.to_owned(),
        format!(
            "{}, {} to {}",
            w.name,
            s.loom.pin_name(w.from),
            s.loom.pin_name(w.to)
        ),
        words(s, &c.off),
        words(s, &c.on),
    ]
}

/// What a touch does.
fn words(s: &Subject, touch: &Touch) -> String {
    match touch {
        Touch::Opens { fuse, times } => format!(
            "{} opens (gets {} times its rating)",
            s.loom.part(*fuse).name,
            figures(*times, 2)
        ),
        Touch::OpensVehicles { amps: a, rating } => {
            let its = rating.map_or_else(String::new, |r| format!("{} ", amps(r)));
            format!("the vehicle's own {its}fuse gets {}", amps(*a))
        }
        Touch::TurnsOn(parts) => turns_on(s, parts),
        Touch::Nothing => "nothing is noticed".into(),
        Touch::Unknown(amiss) => format!("not known: {}", amiss.says(s.loom)),
    }
}

/// "rack lamps come on": circuits by their names, signals of the vehicle by theirs.
fn turns_on(s: &Subject, parts: &[PartId]) -> String {
    let names = called(s, parts);
    let come = if several(&names) { "come" } else { "comes" };
    format!("{names} {come} on")
}

/// What parts are called, each once.
pub(super) fn called(s: &Subject, parts: &[PartId]) -> String {
    let mut names: Vec<&str> = Vec::new();
    for part in parts {
        let p = s.loom.part(*part);
        let name = match (&p.kind, p.circuit) {
            (PartKind::Load(_), Some(c)) => s.loom.circuits[c].name.as_str(),
            _ => p.label.as_str(),
        };
        if !names.contains(&name) {
            names.push(name);
        }
    }
    joined(&names)
}
