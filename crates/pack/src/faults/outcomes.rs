//! How every fault ends: counted, and one by one with the worst first.

use crate::content::Align::{Left as L, Right as R};
use crate::content::{Block, Section, Table};
use crate::report::Subject;
use crate::tables::columns;
use crate::words::{capital, counted};
use finding::joined;
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
    let looked = tries.worst.iter().flatten().count();
    let mut text = format!(
        "{} tried, in {} looks: each in the states that matter to it, shorts with the least and the most that a touch \
         resists, and the worst of all kept. {} more are the same to the circuit, or follow from one that was looked at.",
        counted(looked, "fault", "faults"),
        tries.tried,
        tries.collapsed
    );
    let nowhere = tries
        .worst
        .iter()
        .zip(&tries.cases)
        .filter(|(t, _)| t.is_none());
    let nowhere: Vec<String> = nowhere
        .map(|(_, c)| format!("{} ({})", FAULTS[c.kind].id, c.at))
        .collect();
    if !nowhere.is_empty() {
        let names: Vec<&str> = nowhere.iter().map(String::as_str).collect();
        text += &format!(
            " Not tried, because this vehicle is in no state in which they matter, or in none that came to rest: {}.",
            joined(&names)
        );
    }
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
pub(super) fn table(s: &Subject, tries: &Tries, most: usize) -> Section {
    let all = tries.by_outcome();
    let mut told: Vec<&Trial> = Vec::new();
    for outcome in Outcome::ALL.into_iter().filter(|o| *o != Outcome::Nothing) {
        told.extend(all.iter().filter(|t| t.outcome == outcome).take(most));
    }
    let nothing = all.iter().filter(|t| t.outcome == Outcome::Nothing).count();
    let more = all.len() - nothing - told.len();
    let mut blocks = vec![Block::Table(rows(s, tries, &told))];
    if more > 0 {
        blocks.push(Block::Text(format!(
            "{more} more like these: `--into` writes them all, `--at` shows those of one wire or part."
        )));
    }
    blocks.extend(hot_joints(tries, &all));
    if nothing > 0 {
        blocks.push(Block::Text(format!(
            "Of {} nobody notices anything; `--fault` and `--at` show any of them.",
            counted(nothing, "other", "others")
        )));
    }
    Section {
        id: "faults",
        title: "Fault by fault, the worst first".into(),
        blocks,
    }
}

/// A poor joint that makes so much heat melts its housing before anybody notices, W. Our own, no source.
const HOT_JOINT_W: f64 = 10.0;
/// How many of them are named.
const HOTTEST: usize = 12;

/// The joints that would get hot while everything works: which to look at first.
fn hot_joints(tries: &Tries, all: &[&Trial]) -> Option<Block> {
    let quiet = |t: &&&Trial| t.outcome == Outcome::Nothing && t.joint_w >= HOT_JOINT_W;
    let mut hot: Vec<&Trial> = all.iter().filter(quiet).copied().collect();
    if hot.is_empty() {
        return None;
    }
    hot.sort_by(|a, b| b.joint_w.total_cmp(&a.joint_w).then(a.case.cmp(&b.case)));
    let named = hot.iter().take(HOTTEST).map(|t| {
        let at = &tries.cases[t.case].at;
        format!("{at}: {} W", figures(t.joint_w, 2))
    });
    let named: Vec<String> = named.collect();
    let more = match hot.len().saturating_sub(HOTTEST) {
        0 => String::new(),
        more => format!(", and {more} more"),
    };
    Some(Block::Text(format!(
        "Everything works with these joints as poor, and they would make {} W and more: {}{more}. Feel for them first.",
        figures(HOT_JOINT_W, 2),
        named.join("; ")
    )))
}

/// A table of trials.
pub fn rows(s: &Subject, tries: &Tries, trials: &[&Trial]) -> Table {
    let row = |t: &&Trial| {
        let case = &tries.cases[t.case];
        vec![
            t.outcome.word().to_owned(),
            FAULTS[case.kind].id.to_owned(),
            case.at.clone(),
            t.comes.clone(),
            s.answers.states[t.state].state.name.clone(),
        ]
    };
    Table {
        columns: columns(&[
            ("outcome", L),
            ("fault", L),
            ("at", L),
            ("what comes of it", L),
            ("in", L),
        ]),
        rows: trials.iter().map(row).collect(),
    }
}
