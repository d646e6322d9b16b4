//! What happens in each plan when a switch's wire chafes through to the body, and what each form costs in wire.

use super::{Two, column};
use crate::content::{Align, Block, Section, Table};
use crate::report::Subject;
use crate::words::{amps, counted, joined, several};
use loom::{PartId, PartKind};
use plan::SwitchBreaks;
use quantity::figures;
use study::{Chafe, Touch};

/// Every switch's wires, circuit by circuit.
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
    Section {
        id: "chafe",
        title: title.into(),
        blocks: vec![
            Block::Text(format!(
                "With its switch off, a touch of the body turns something on at {first}, and at {second}."
            )),
            Block::Table(table(two)),
            Block::Text("Circuits that behave alike in both are left out. With the switch in the coil's supply, a chafe of its wire opens the fuse; with the switch in the coil's earth, it turns the load on, and no live wire need pass the panel for it.".into()),
            Block::Text(cost(two)),
        ],
    }
}

fn table(two: &Two) -> Table {
    let mut circuits: Vec<&str> = Vec::new();
    for s in two.sides {
        for c in &s.loom.circuits {
            if !circuits.contains(&c.name.as_str()) {
                circuits.push(&c.name);
            }
        }
    }
    let mut rows = Vec::new();
    // Circuits that are alike in both tell nothing.
    let told = |i: usize, circuit: &str| -> Vec<[String; 2]> {
        let s = two.sides[i];
        let here = |c: &&Chafe| circuit_of(s, c) == Some(circuit);
        let list = two.compared.chafes[i].iter().filter(here);
        list.map(|c| [bare_words(&c.off), bare_words(&c.on)])
            .collect()
    };
    for circuit in circuits {
        if told(0, circuit) == told(1, circuit) {
            continue;
        }
        for i in [0, 1] {
            let s = two.sides[i];
            let here = |c: &&Chafe| circuit_of(s, c) == Some(circuit);
            let list = two.compared.chafes[i].iter().filter(here);
            rows.extend(list.map(|c| row(s, two.names[i], circuit, c)));
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
    }
}

/// What a touch does, without how much.
fn bare_words(touch: &Touch) -> String {
    match touch {
        Touch::Opens { .. } => "opens",
        Touch::OpensVehicles { .. } => "opens the vehicle's",
        Touch::TurnsOn(_) => "turns on",
        Touch::Nothing => "nothing",
    }
    .to_owned()
}

/// "rack lamps come on": circuits by their names, signals of the vehicle by theirs.
fn turns_on(s: &Subject, parts: &[PartId]) -> String {
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
    let names = joined(&names);
    let come = if several(&names) { "come" } else { "comes" };
    format!("{names} {come} on")
}

/// What each form costs in metres.
fn cost(two: &Two) -> String {
    let [first, second] = [0, 1].map(|i| {
        let form = form(two.sides[i], two.sides[1 - i]);
        let form = form.map_or_else(String::new, |f| format!(", {f},"));
        let metres = figures(two.compared.metres[i], 3);
        format!("“{}”{form} takes {metres} m", two.names[i])
    });
    let [a, b] = two.compared.metres;
    let apart = match b - a {
        d if d.abs() < 0.005 => "as much".to_owned(),
        d if d > 0.0 => format!("{} m more", figures(d, 3)),
        d => format!("{} m less", figures(-d, 3)),
    };
    format!("What it costs in wire: {first}, and {second}, {apart}.")
}

/// What a switch breaks: its coil's supply or earth, or its loads themselves.
fn breaks(s: &Subject, circuit: &str) -> Option<Option<SwitchBreaks>> {
    let c = s.loom.circuits.iter().find(|c| c.name == circuit)?;
    match &s.loom.part(c.switch?).kind {
        PartKind::Switch(w) => Some(w.breaks),
        _ => None,
    }
}

/// How a plan's switches differ from those of the other, when all that differ are alike: "with the switch of
/// rack lamps in its coil's earth".
fn form(s: &Subject, other: &Subject) -> Option<String> {
    let mut names: Vec<&str> = Vec::new();
    let mut forms: Vec<Option<SwitchBreaks>> = Vec::new();
    for c in &s.loom.circuits {
        let (Some(here), Some(there)) = (breaks(s, &c.name), breaks(other, &c.name)) else {
            continue;
        };
        if here != there {
            names.push(&c.name);
            forms.push(here);
        }
    }
    let first = *forms.first()?;
    let form = match first {
        Some(SwitchBreaks::Supply) => "in its coil's supply",
        Some(SwitchBreaks::Earth) => "in its coil's earth",
        None => "in its loads' supply",
    };
    let alike = forms.iter().all(|f| *f == first);
    alike.then(|| format!("with the switch of {} {form}", joined(&names)))
}
