//! The report: findings first, then wires, fuses and loads, then what was assumed and the cautions.

use crate::cautions::{CAUTIONS, CHECKED, NOT_CHECKED};
use crate::content::{Block, Content, Section};
use crate::{seen, sized, tables, tried};
use finding::{Finding, Weight};
use loom::Loom;
use plan::Plan;
use sheet::Sheet;
use stock::Stock;
use study::Answers;

/// What a report is about.
#[derive(Clone, Copy)]
pub struct Subject<'a> {
    /// The plan.
    pub plan: &'a Plan,
    /// Its loom.
    pub loom: &'a Loom,
    /// The stock it was sized from.
    pub stock: &'a Stock,
    /// What the study answers.
    pub answers: &'a Answers,
}

impl Subject<'_> {
    /// These sections under the job's heading, and what of the job they are about.
    pub(crate) fn content(&self, about: Option<&str>, sections: Vec<Section>) -> Content {
        let job = &self.plan.job;
        Content {
            date: None,
            paper: crate::Paper::A4,
            title: match about {
                Some(about) => format!("{}: {about}", job.title),
                None => job.title.clone(),
            },
            vehicle: job.vehicle.clone(),
            owner: job.owner.clone(),
            sections,
        }
    }
}

/// The whole report, with these drawings in it.
pub fn report(s: &Subject, drawings: &[Sheet]) -> Content {
    let mut sections = vec![Section {
        id: "findings",
        title: tally(&s.answers.findings),
        blocks: vec![Block::Findings(s.answers.findings.clone())],
    }];
    let drawn = !drawings.is_empty();
    if drawn {
        // A document that is worked from says what can hurt before it shows how.
        sections.extend(care(s));
        sections.push(Section {
            id: "diagram",
            title: "Circuit diagram".into(),
            blocks: drawings.iter().cloned().map(Block::Drawing).collect(),
        });
    }
    sections.extend(figures(s));
    if !drawn {
        sections.extend(care(s));
    }
    s.content(None, sections)
}

/// What can hurt.
pub(crate) fn cautions() -> Section {
    let cautions = CAUTIONS.iter().map(|c| (*c).to_owned()).collect();
    Section::of("cautions", "Before you start", Block::List(cautions))
}

/// What can hurt, what was checked and what was not.
pub(crate) fn care(s: &Subject) -> [Section; 2] {
    [
        cautions(),
        Section {
            id: "checked",
            title: "What was checked, and what was not".into(),
            blocks: vec![
                Block::Text(format!("Checked: {CHECKED}")),
                Block::Text(tried::says(s.answers)),
                Block::Text(format!("Not checked: {NOT_CHECKED}")),
            ],
        },
    ]
}

/// The tables.
pub(crate) fn figures(s: &Subject) -> [Section; 8] {
    let table = |id, title, table| Section::of(id, title, Block::Table(table));
    let mut recalled = table(
        "recalled",
        "Recalled, not read: confirm before you rely on it",
        tables::recalled(s),
    );
    let why =
        "These figures decide something above, and nobody read them in a document for this tool.";
    recalled.blocks.insert(0, Block::Text(why.into()));
    let mut wires = table("wires", "Wires", tables::wires(s));
    wires
        .blocks
        .insert(0, Block::Text(sized::says(&s.answers.sizing)));
    [
        wires,
        table("fuses", "Fuses", tables::fuses(s)),
        table("loads", "Loads", tables::loads(s)),
        table("seen", "What each load sees", seen::table(s)),
        table("switches", "Relays and switches", tables::parts(s)),
        table("bundles", "Bundles", tables::bundles(s)),
        table(
            "assumed",
            "Assumed, and how to set it",
            tables::assumed(&s.answers.assumptions),
        ),
        recalled,
    ]
}

/// How many findings of each weight, as a heading.
pub fn tally(findings: &[Finding]) -> String {
    let count = |w: Weight| findings.iter().filter(|f| f.weight == w).count();
    let (stops, mends, notes) = (
        count(Weight::Stop),
        count(Weight::Mend),
        count(Weight::Note),
    );
    if stops + mends + notes == 0 {
        return "Nothing found in what was checked".into();
    }
    let some = |n: usize, one: &str, many: &str| match n {
        0 => None,
        1 => Some(format!("1 {one}")),
        n => Some(format!("{n} {many}")),
    };
    let parts = [
        some(stops, "stop", "stops"),
        some(mends, "to mend", "to mend"),
        some(notes, "note", "notes"),
    ];
    let said = parts.into_iter().flatten().collect::<Vec<_>>().join(", ");
    if stops > 0 {
        format!("Findings: {said}. Do not build or use this as it is")
    } else {
        format!("Findings: {said}")
    }
}
