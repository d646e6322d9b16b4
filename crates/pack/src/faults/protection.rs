//! Each fuse against the wires behind it, and against the fuse before it.

use crate::content::Align::{Left as L, Right as R};
use crate::content::{Block, Section, Table};
use crate::report::Subject;
use crate::tables::columns;
use crate::words::amps;
use quantity::figures;
use sheet::Sheet;
use study::{Coordination, Protection, Selective, fuse_words};

pub(super) fn section(s: &Subject, p: &Protection, charts: &[Sheet]) -> Section {
    let mut blocks = vec![
        Block::Text(
            "The margin is how many times longer than the fuse's slow edge the wire bears a current, at the current at which \
             that is least: below 1 the wire is harmed first. Between the rating and the first current at which an opening is \
             promised nothing is promised at all."
                .into(),
        ),
        Block::Table(table(s, &p.pairs)),
    ];
    if !p.selective.is_empty() {
        let lines = p.selective.iter().map(|x| selective(s, x));
        blocks.push(Block::List(lines.collect()));
    }
    blocks.extend(charts.iter().cloned().map(Block::Drawing));
    Section {
        id: "protection",
        title: "Each fuse against its wires".into(),
        blocks,
    }
}

fn table(s: &Subject, pairs: &[Coordination]) -> Table {
    let row = |c: &Coordination| {
        let (margin, at) = match c.margin {
            Some((m, at)) if m < 1000.0 => (format!("{} ×", figures(m, 2)), amps(at)),
            Some(_) => ("over 1000 ×".to_owned(), String::new()),
            None => ("never harmed".to_owned(), String::new()),
        };
        let faults = c.faults.map_or_else(String::new, |(low, high)| {
            format!("{} … {}", figures(low, 3), figures(high, 3))
        });
        vec![
            s.loom.part(c.fuse).name.clone(),
            figures(c.rating, 3),
            s.loom.wire(c.wire).name.clone(),
            margin,
            at,
            faults,
            format!("{} … {}", figures(c.gap.0, 3), figures(c.gap.1, 3)),
        ]
    };
    Table {
        columns: columns(&[
            ("fuse", L),
            ("A", R),
            ("wire", L),
            ("least margin", R),
            ("at", R),
            ("faults, A", L),
            ("nothing promised, A", L),
        ]),
        rows: pairs.iter().map(row).collect(),
    }
}

fn selective(s: &Subject, x: &Selective) -> String {
    let near = &s.loom.part(x.fuse).name;
    let before = fuse_words(s.loom, x.before);
    match x.overlap_from {
        Some(from) => format!(
            "{near} and before it {before}: from {} on either may open, of up to {}",
            amps(from),
            amps(x.highest)
        ),
        None => format!(
            "{near} opens before {before} at every current up to {}",
            amps(x.highest)
        ),
    }
}
