//! How each bundle is laid, and what goes through each panel.

use crate::content::Align::{Left as L, Right as R};
use crate::content::{Block, Section, Table};
use crate::report::Subject;
use crate::tables::columns;
use quantity::Quantity;
use study::{Hole, How, Laid, Lists, Pass, Passing};

/// What the columns mean.
const MEANS: &str = "Thickness is what hands make of it; the least is what its wires can be drawn up to. Bends are inside radii, where it hangs \
free and where it is held on both sides. Clips stand beside each end and each side of a panel, and no farther apart than the column says. Where a \
wet stretch leads into a connector or box, the loom hangs below the entry first: the wires have a drip loop's length for it. No two splices \
lie side by side.";

pub(super) fn bundles(s: &Subject, l: &Lists) -> Section {
    Section {
        id: "bundles",
        title: "How each bundle is laid".into(),
        blocks: vec![Block::Text(MEANS.into()), Block::Table(bundle_table(s, l))],
    }
}

pub(super) fn bundle_table(s: &Subject, l: &Lists) -> Table {
    Table {
        columns: columns(&[
            ("between", L),
            ("wires", R),
            ("least", R),
            ("thick", R),
            ("sleeve", L),
            ("outside", R),
            ("hole", R),
            ("bends", R),
            ("clips", R),
            ("apart", R),
            ("ties", R),
        ]),
        rows: l.laid.iter().map(|one| row(s, one)).collect(),
    }
}

fn row(s: &Subject, l: &Laid) -> Vec<String> {
    let stretch = s.loom.stretch(l.stretch);
    let sleeve = match &l.sleeve {
        None => "open".to_owned(),
        Some(Ok(sleeve)) => s.stock.sleeves[*sleeve].name.clone(),
        Some(Err(what)) => format!("not in stock: {what}"),
    };
    let hole = l.hole.as_ref().map_or_else(String::new, hole_words);
    vec![
        stretch
            .ends
            .map(|p| s.loom.place(p).name.as_str())
            .join(" – "),
        stretch.wires.len().to_string(),
        l.bundle.least.show(),
        l.bundle.laid.show(),
        sleeve,
        l.outside.show(),
        hole,
        l.bends.map(|b| b.show()).join(", "),
        l.clips.to_string(),
        l.every.show(),
        l.ties.to_string(),
    ]
}

fn hole_words(hole: &Hole) -> String {
    match (&hole.grommet, hole.across) {
        (Some(Err(what)), _) => format!("not in stock: {what}"),
        (Some(_), Some(across)) => format!("{} with its grommet", across.show()),
        (None, Some(across)) => format!("{} at least, no grommet", across.show()),
        (_, None) => String::new(),
    }
}

/// What goes through each panel, in which order.
pub(super) fn panels(s: &Subject, l: &Lists) -> Option<Section> {
    let says = "In the order in which it goes through, the widest first, one end after another. What is made up on the bench is tried first; then what passes the hole but not the grommet, \
which is put on the wires before that end is crimped; then a connector’s contacts without their housing. The rest is crimped behind the panel.";
    let mut blocks = vec![Block::Text(says.into())];
    for passing in &l.passings {
        blocks.push(Block::Text(heading(s, passing)));
        blocks.push(Block::Table(Table {
            columns: columns(&[
                ("what", L),
                ("wires", L),
                ("widest", R),
                ("goes through", L),
            ]),
            rows: passing.passes.iter().map(|p| pass(s, p)).collect(),
        }));
    }
    (!l.passings.is_empty()).then(|| Section {
        id: "panels",
        title: "Through the panels".into(),
        blocks,
    })
}

fn heading(s: &Subject, passing: &Passing) -> String {
    let panel = s.loom.stretch(passing.stretch).panel.as_ref();
    let name = panel.map_or("panel", |p| p.name.as_str());
    let towards = &s.loom.place(passing.towards).name;
    format!("{name}, towards {towards}:")
}

fn pass(s: &Subject, p: &Pass) -> Vec<String> {
    let how = match p.how {
        How::Whole => "made up, through the grommet",
        How::GrommetFirst => {
            "made up, through the bare hole: the grommet goes onto its wires before it is crimped"
        }
        How::HousingAfter => "contacts crimped; the housing is put on behind the panel",
        How::CrimpAfter => "bare wire; crimped behind the panel",
    };
    let names = p.wires.iter().map(|w| s.loom.wire(*w).name.as_str());
    vec![
        p.what.clone(),
        names.collect::<Vec<_>>().join(", "),
        p.across.map_or_else(String::new, |a| a.show()),
        how.to_owned(),
    ]
}
