//! What comes of every fault, in a person's words: what stops, how many end how, each with what opens and how hot it
//! gets; each fuse against its wires; and one fault moment by moment.

mod closely;
mod outcomes;
mod protection;

use crate::content::{Block, Content, Section};
use crate::report::{self, Subject};
use finding::{Finding, Weight, joined};
use sheet::Sheet;
use std::collections::BTreeSet;
use study::{Protection, Tries};

pub use closely::closely;
pub use outcomes::rows;

/// What is not looked at.
const NOT_LOOKED_AT: &str = "Not looked at: two things gone wrong at once, a fuse that does not open within its class's \
band, arcs that come and go, fire, how hot a poor joint itself gets (the heat it makes is told), what a fault does inside \
the vehicle's own wiring, and coil wires beyond what their load's fuse lets through. Every fault starts with each wire as \
warm as in its worst state. A fuse of the vehicle's own, of which only the rating is known, counts as the slowest usual \
class of that rating. A fuse is slower in the cold, and its wires as much cooler: neither is counted. Bundles count as \
taped close: in a wide round sleeve the hottest wire rises up to a quarter more (finite elements, five mixes).";

/// How many faults of each outcome a terminal shows.
const SOME: usize = 30;

/// All of it, for a page with the matrix and the charts of the fuses that have least to spare.
pub fn faults(
    s: &Subject,
    tries: &Tries,
    found: Vec<Finding>,
    protection: Option<&Protection>,
    drawn: Option<(&[Sheet], &[Sheet])>,
) -> Content {
    // A page has room for all; a terminal, which shows no drawings, for some of each.
    let most = if drawn.is_some() { usize::MAX } else { SOME };
    let (matrix, charts) = drawn.unwrap_or_default();
    let mut sections = vec![
        stops(s, found),
        outcomes::counts(tries),
        outcomes::table(s, tries, most),
    ];
    if !matrix.is_empty() {
        let drawings = matrix.iter().cloned().map(Block::Drawing);
        sections.push(Section {
            id: "matrix",
            title: "What fails, and what that does to each load".into(),
            blocks: drawings.collect(),
        });
    }
    sections.extend(protection.map(|p| protection::section(s, p, charts)));
    sections.push(assumed());
    sections.push(report::cautions());
    s.content(Some("every fault"), sections)
}

fn stops(s: &Subject, found: Vec<Finding>) -> Section {
    let mut blocks = Vec::new();
    let whole = s.answers.findings.iter();
    let whole: BTreeSet<&str> = whole
        .filter(|f| f.weight == Weight::Stop)
        .map(|f| f.id)
        .collect();
    if !whole.is_empty() {
        let ids: Vec<&str> = whole.into_iter().collect();
        blocks.push(Block::Text(format!(
            "With nothing gone wrong, `check` stops already: {}. Mend that first: every fault here starts from there.",
            joined(&ids)
        )));
    }
    blocks.push(match found.is_empty() {
        true => Block::Text(
            "No fault that was tried burns a wire, and none turns on what the plan calls a hazard."
                .into(),
        ),
        false => Block::Findings(found),
    });
    Section {
        id: "found",
        title: "Found by trying".into(),
        blocks,
    }
}

/// The figures that only faults are tried with.
fn assumed() -> Section {
    let limits = study::Limits::default();
    let rows = limits
        .rows()
        .iter()
        .filter(|r| r.of == study::LimitOf::Faults);
    let lines = rows.map(|r| {
        let value = quantity::figures(r.value, 3);
        format!("{}: {value} {} ({})", r.name, r.unit, r.cite())
    });
    Section {
        id: "assumed",
        title: "Assumed when faults are tried".into(),
        blocks: vec![
            Block::List(lines.collect()),
            Block::Text(NOT_LOOKED_AT.into()),
        ],
    }
}
