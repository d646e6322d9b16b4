//! Two plans side by side, in a person's words: the findings that one has and the other has not, the wire that
//! each takes, and what a chafed switch wire does in each.

mod chafes;
mod forms;
mod wires;

use crate::content::{Align, Block, Column, Content, Section, Table};
use crate::report::Subject;
use crate::words::counted;
use finding::{Finding, Weight};
use quantity::figures;
use study::Comparison;

/// The first plan, the second, and what was compared.
#[derive(Clone, Copy)]
struct Two<'a> {
    sides: [&'a Subject<'a>; 2],
    names: [&'a str; 2],
    compared: &'a Comparison,
}

/// The whole of it.
pub fn comparison(sides: [&Subject; 2], files: [&str; 2], c: &Comparison) -> Content {
    let [a, b] = sides;
    let two = Two {
        sides,
        names: names(a, b, files),
        compared: c,
    };
    let vehicles = [&a.plan.job.vehicle, &b.plan.job.vehicle];
    let owners = [&a.plan.job.owner, &b.plan.job.owner];
    Content {
        date: None,
        paper: crate::Paper::A4,
        title: title(a, b),
        vehicle: match vehicles[0] == vehicles[1] {
            true => vehicles[0].clone(),
            false => vehicles.map(String::as_str).join("; "),
        },
        owner: owners[0].clone().filter(|_| owners[0] == owners[1]),
        sections: match alike(c) && chafes::differ(&two).is_empty() {
            true => vec![nothing_apart(&two)],
            false => vec![found(&two), wires::section(&two), chafes::section(&two)],
        },
    }
}

/// Less wire than this is no difference, m.
const NO_WIRE: f64 = 0.005;

/// Whether both have the same findings and take the same wire.
fn alike(c: &Comparison) -> bool {
    let same = |[a, b]: &[f64; 2]| (a - b).abs() < NO_WIRE;
    let counts = [c.wires, c.through_panels, c.live_through_panels];
    c.only_first.is_empty()
        && c.only_second.is_empty()
        && counts.iter().all(|[a, b]| a == b)
        && same(&c.metres)
        && c.sizes.iter().all(|(_, metres)| same(metres))
}

/// Two plans without a difference.
fn nothing_apart(two: &Two) -> Section {
    let c = two.compared;
    let says = format!(
        "The two plans are alike: same findings, same wire. Both have {} and take {} m of wire, and a chafed switch wire \
         does the same in both.",
        counted(c.both, "finding", "findings"),
        figures(c.metres[0], 3)
    );
    Section::of("findings", "No difference", Block::Text(says))
}

/// What the two are called in columns and sentences.
fn names<'a>(a: &Subject<'a>, b: &Subject<'a>, files: [&'a str; 2]) -> [&'a str; 2] {
    let titles = [a.plan.job.title.as_str(), b.plan.job.title.as_str()];
    let apart = [titles, files].into_iter().find(|[a, b]| a != b);
    apart.unwrap_or(["first plan", "second plan"])
}

fn title(a: &Subject, b: &Subject) -> String {
    let [first, second] = [&a.plan.job.title, &b.plan.job.title];
    if first == second {
        format!("{first}: two plans beside each other")
    } else {
        format!("{first}, beside {second}")
    }
}

/// A column of words or figures with a title of its own.
fn column(title: &str, align: Align) -> Column {
    Column {
        title: title.to_owned().into(),
        align,
    }
}

/// A column of figures for each plan, after one that says of what.
fn beside(names: [&str; 2], rows: Vec<Vec<String>>) -> Table {
    let [first, second] = names.map(|n| column(n, Align::Right));
    Table {
        columns: vec![column("what", Align::Left), first, second],
        rows,
    }
}

const FOUND: &str = "Findings that one has and the other has not";

/// Findings gained and lost.
fn found(two: &Two) -> Section {
    let c = two.compared;
    let [first, second] = two.names;
    if c.only_first.is_empty() && c.only_second.is_empty() {
        let both = counted(c.both, "finding", "findings");
        let says = format!("None: {both} in both, the same ones.");
        return Section::of("findings", FOUND, Block::Text(says));
    }
    let says = format!(
        "“{second}” has {} that “{first}” has not, and “{first}” has {} that “{second}” has not; {} in both.",
        weighed(&c.only_second),
        weighed(&c.only_first),
        match c.both {
            0 => "none is".to_owned(),
            1 => "1 is".to_owned(),
            n => format!("{n} are"),
        }
    );
    let mut blocks = vec![Block::Text(says)];
    for (name, list) in [(second, &c.only_second), (first, &c.only_first)] {
        if !list.is_empty() {
            blocks.push(Block::Text(format!("Only in “{name}”:")));
            blocks.push(Block::Findings(list.clone()));
        }
    }
    Section {
        id: "findings",
        title: FOUND.into(),
        blocks,
    }
}

/// "3 findings (1 stop)".
fn weighed(list: &[Finding]) -> String {
    let all = counted(list.len(), "finding", "findings");
    match list.iter().filter(|f| f.weight == Weight::Stop).count() {
        0 => all,
        n => format!("{all} ({})", counted(n, "stop", "stops")),
    }
}
