//! How every fault ends: counted, and one by one with the worst first.

use crate::content::Align::{Left as L, Right as R};
use crate::content::{Block, Section, Table};
use crate::report::Subject;
use crate::tables::columns;
use crate::words::{capital, counted};
use quantity::figures;
use study::{FAULTS, Outcome, Trial, Tries};

/// How many end how.
pub(super) fn counts(tries: &Tries) -> Section {
    let with = |o: Outcome| {
        tries
            .worst
            .iter()
            .flatten()
            .filter(|t| t.outcome == o)
            .count()
    };
    let rows = Outcome::ALL.into_iter().filter(|o| with(*o) > 0);
    let rows = rows.map(|o| vec![o.word().to_owned(), with(o).to_string(), capital(o.means())]);
    let text = format!(
        "{} tried, in {} looks: each in the states that matter to it, shorts with the least and the most that a touch \
         resists, and the worst of all kept. {} more are the same to the circuit, or follow from one that was looked at.",
        counted(tries.cases.len(), "fault", "faults"),
        tries.tried,
        tries.collapsed
    );
    Section {
        id: "outcomes",
        title: "How they end".into(),
        blocks: vec![
            Block::Text(text),
            Block::Table(Table {
                columns: columns(&[("outcome", L), ("faults", R), ("what it means", L)]),
                rows: rows.collect(),
            }),
        ],
    }
}

/// Every fault that somebody would notice, the worst first; the rest in a sentence.
pub(super) fn table(s: &Subject, tries: &Tries) -> Section {
    let all = tries.by_outcome();
    let told: Vec<&Trial> = all
        .iter()
        .copied()
        .filter(|t| t.outcome != Outcome::Nothing)
        .collect();
    let quiet = all.len() - told.len();
    let mut blocks = vec![Block::Table(rows(s, tries, &told))];
    if quiet > 0 {
        blocks.push(Block::Text(format!(
            "Of {} nobody notices anything; `--fault` and `--at` show any of them.",
            counted(quiet, "other", "others")
        )));
    }
    Section {
        id: "faults",
        title: "Fault by fault, the worst first".into(),
        blocks,
    }
}

/// A table of trials.
pub fn rows(s: &Subject, tries: &Tries, trials: &[&Trial]) -> Table {
    let row = |t: &&Trial| {
        let case = &tries.cases[t.case];
        let opens = t
            .opens
            .map_or_else(String::new, |f| s.loom.part(f).name.clone());
        let within = t.seconds.map_or_else(String::new, study::time_words);
        let hottest = t.peak.map_or_else(String::new, |(w, c)| {
            format!("{} {}", s.loom.wire(w).name, figures(c, 3))
        });
        vec![
            t.outcome.word().to_owned(),
            FAULTS[case.kind].id.to_owned(),
            case.at.clone(),
            opens,
            within,
            hottest,
            t.says.clone(),
            s.answers.states[t.state].state.name.clone(),
        ]
    };
    Table {
        columns: columns(&[
            ("outcome", L),
            ("fault", L),
            ("at", L),
            ("opens", L),
            ("within", R),
            ("hottest, °C", L),
            ("what happens", L),
            ("in", L),
        ]),
        rows: trials.iter().map(row).collect(),
    }
}
