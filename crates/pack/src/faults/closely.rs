//! One fault, moment by moment.

use crate::content::Align::Right as R;
use crate::content::{Block, Column, Content, Section, Table};
use crate::report::{self, Subject};
use crate::words::capital;
use finding::Finding;
use loom::{PartId, WireId};
use quantity::figures;
use sheet::Sheet;
use std::collections::BTreeSet;
use study::{FAULTS, FaultDetail, Moment, Outcome};

/// Instead of moments and a chart.
const NOTHING_WARMS: &str = "There is no chart and no table of moments: no wire carries more than it was sized for \
and no fuse more than its rating, so that nothing changes once the fault is there.";

/// The same of a short that nothing is there to end.
const NOTHING_OPENS: &str = "There is no chart and no table of moments: nothing is there to open, and what the battery, its \
posts and whatever touches them do then is not followed.";

/// How many moments a table shows at most.
const MOMENTS: usize = 24;

/// The fault, with what was found of it and its like, its chart if there is one, and the others that were asked for, a
/// sentence each.
pub fn closely(
    s: &Subject,
    d: &FaultDetail,
    (found, others): (Vec<Finding>, Vec<String>),
    chart: Option<&Sheet>,
) -> Content {
    let t = &d.trial;
    let kind = FAULTS[d.case.kind];
    let lines = vec![
        format!("Fault: {} ({})", kind.what, kind.id),
        format!("In: {}", s.answers.states[t.state].state.name),
        format!("Outcome: {}: {}", t.outcome.word(), t.outcome.means()),
    ];
    let mut blocks = vec![Block::Text(capital(&t.says)), Block::List(lines)];
    if !found.is_empty() {
        blocks.push(Block::Findings(found));
    }
    blocks.extend(chart.cloned().map(Block::Drawing));
    blocks.push(match d.moments.is_empty() {
        true if t.outcome == Outcome::Overheats => Block::Text(NOTHING_OPENS.into()),
        true => Block::Text(NOTHING_WARMS.into()),
        false => Block::Table(table(s, &d.moments)),
    });
    let fault = Section {
        id: "fault",
        title: d.case.at.clone(),
        blocks,
    };
    let mut sections = vec![fault];
    if !others.is_empty() {
        sections.push(Section {
            id: "others",
            title: "The others, the worst first".into(),
            blocks: vec![Block::List(others)],
        });
    }
    sections.push(report::cautions());
    s.content(Some(&d.case.at), sections)
}

fn of_all<'a, T: Ord, I: Iterator<Item = T>>(
    moments: &'a [Moment],
    of: impl Fn(&'a Moment) -> I,
) -> BTreeSet<T> {
    moments.iter().flat_map(of).collect()
}

/// Moments spread over the whole: the first, the last, and even steps between.
fn table(s: &Subject, moments: &[Moment]) -> Table {
    let step = moments.len().div_ceil(MOMENTS).max(1);
    let last = moments.len() - 1;
    let shown: Vec<&Moment> = moments
        .iter()
        .enumerate()
        .filter(|(i, _)| i % step == 0 || *i == last)
        .map(|(_, m)| m)
        .collect();
    let column = |title: String| Column {
        title: title.into(),
        align: R,
    };
    let mut titles = vec![column("after, s".to_owned())];
    // Some warm only once something else has opened.
    let fuses: BTreeSet<PartId> = of_all(moments, |m| m.fuses.iter().map(|(f, _)| *f));
    let wires: BTreeSet<WireId> = of_all(moments, |m| m.wires.iter().map(|(w, ..)| *w));
    titles.extend(
        fuses
            .iter()
            .map(|f| column(format!("{}, A", s.loom.part(*f).name))),
    );
    titles.extend(
        wires
            .iter()
            .map(|w| column(format!("{}, °C", s.loom.wire(*w).name))),
    );
    let row = |m: &&Moment| {
        let mut cells = vec![figures(m.seconds, 3)];
        for f in &fuses {
            let now = m.fuses.iter().find(|(x, _)| x == f);
            cells.push(now.map_or_else(String::new, |(_, a)| figures(*a, 3)));
        }
        for w in &wires {
            let now = m.wires.iter().find(|(x, ..)| x == w);
            cells.push(now.map_or_else(String::new, |(_, k, _)| figures(k - 273.15, 3)));
        }
        cells
    };
    Table {
        columns: titles,
        rows: shown.iter().map(row).collect(),
    }
}
