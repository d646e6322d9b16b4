//! How each bundle is laid, and what goes through each panel.

use crate::content::Align::{Left as L, Right as R};
use crate::content::{Block, Section, Table};
use crate::report::Subject;
use crate::tables::columns;
use quantity::{Quantity, figures};
use study::{Hole, How, Laid, Lists, Pass, Passing};

/// What the columns mean.
const BUNDLES: &str = "Thickness is what hands make of a bundle; the least is what its wires can be drawn up to. A sleeve that is thicker than the \
grommet’s bore is cut at the panel and ends on each side of it, taped.";
const FIXINGS: &str = "Bends are inside radii, where the loom hangs free and where it is held on both sides of the bend. Clips stand beside each \
end and each side of a panel, and no farther apart than the column says. Where a wet stretch leads into a connector, box, relay or switch, the loom hangs below \
the entry first: the wires that come from elsewhere have a drip loop’s length for it. No two splices lie side by side.";

pub(super) fn bundles(s: &Subject, l: &Lists) -> Section {
    Section {
        id: "bundles",
        title: "How each bundle is laid".into(),
        blocks: vec![
            Block::Text(BUNDLES.into()),
            Block::Table(bundle_table(s, l)),
            Block::Text(FIXINGS.into()),
            Block::Table(fixing_table(s, l)),
        ],
    }
}

fn between(s: &Subject, l: &Laid) -> String {
    let ends = s.loom.stretch(l.stretch).ends;
    ends.map(|p| s.loom.place(p).name.as_str()).join(" – ")
}

pub(super) fn bundle_table(s: &Subject, l: &Lists) -> Table {
    let row = |l: &Laid| {
        let cut = if l.parts(s.stock) {
            ", cut at the panel"
        } else {
            ""
        };
        let sleeve = match &l.sleeve {
            None => "open".to_owned(),
            Some(Ok(sleeve)) => format!("{}{cut}", s.stock.sleeves[*sleeve].name),
            Some(Err(what)) => format!("not in stock: {what}"),
        };
        vec![
            between(s, l),
            s.loom.stretch(l.stretch).wires.len().to_string(),
            l.bundle.least.show(),
            l.bundle.laid.show(),
            sleeve,
            l.outside.show(),
            l.hole.as_ref().map_or_else(String::new, hole_words),
        ]
    };
    Table {
        columns: columns(&[
            ("between", L),
            ("wires", R),
            ("least", R),
            ("thick", R),
            ("sleeve", L),
            ("outside", R),
            ("hole", R),
        ]),
        rows: l.laid.iter().map(row).collect(),
    }
}

pub(super) fn fixing_table(s: &Subject, l: &Lists) -> Table {
    let mm = |l: quantity::Length| figures(l.si() * 1e3, 3);
    let row = |l: &Laid| {
        vec![
            between(s, l),
            mm(l.bends[0]),
            mm(l.bends[1]),
            l.clips.to_string(),
            mm(l.every),
            if l.ties > 0 {
                l.ties.to_string()
            } else {
                String::new()
            },
        ]
    };
    Table {
        columns: columns(&[
            ("between", L),
            ("bend, mm", R),
            ("bend held, mm", R),
            ("clips", R),
            ("apart, mm", R),
            ("ties", R),
        ]),
        rows: l.laid.iter().map(row).collect(),
    }
}

fn hole_words(hole: &Hole) -> String {
    match (&hole.grommet, hole.across) {
        (Some(Err(what)), _) => format!("not in stock: {what}"),
        (Some(_), Some(across)) => format!("{} with its grommet", across.show()),
        (None, Some(across)) => format!("{} at least, no grommet", across.show()),
        (_, None) => String::new(),
    }
}

/// How things go through.
const PANELS: &str = "In the order in which it goes through, one end after another, the widest first. What is made up on the bench is tried first; \
then what passes the hole but not the grommet, which is put on those wires before the end is crimped; then a connector’s contacts without their \
housing. The rest is crimped behind the panel. All of it goes outwards from one place. How wide terminals and housings are is from memory: measure yours.";

/// What goes through each panel, in which order.
pub(super) fn panels(s: &Subject, l: &Lists) -> Option<Section> {
    let mut blocks = vec![Block::Text(PANELS.into()), Block::Table(panel_table(s, l))];
    let untried = l.laid.iter().filter(|laid| {
        laid.hole.is_some() && !l.passings.iter().any(|p| p.stretch == laid.stretch)
    });
    let untried: Vec<String> = untried.map(|laid| panel(s, laid.stretch)).collect();
    if !untried.is_empty() {
        let says = format!("Not tried, for want of a grommet: {}.", untried.join(", "));
        blocks.push(Block::Text(says));
    }
    let any = l.laid.iter().any(|laid| laid.hole.is_some());
    any.then(|| Section {
        id: "panels",
        title: "Through the panels".into(),
        blocks,
    })
}

pub(super) fn panel_table(s: &Subject, l: &Lists) -> Table {
    let mut rows = Vec::new();
    for passing in &l.passings {
        let towards = &s.loom.place(passing.towards).name;
        for pass in &passing.passes {
            let mut row = vec![format!("{}, towards {towards}", panel(s, passing.stretch))];
            row.extend(pass_cells(s, passing, pass));
            rows.push(row);
        }
    }
    Table {
        columns: columns(&[
            ("panel", L),
            ("what", L),
            ("wires", L),
            ("widest", R),
            ("goes through", L),
        ]),
        rows,
    }
}

fn panel(s: &Subject, stretch: loom::StretchId) -> String {
    let panel = s.loom.stretch(stretch).panel.as_ref();
    panel.map_or_else(|| "panel".to_owned(), |p| p.name.clone())
}

fn pass_cells(s: &Subject, passing: &Passing, p: &Pass) -> [String; 4] {
    let panel = s.loom.stretch(passing.stretch).panel.as_ref();
    let grommet = panel.is_some_and(|p| p.grommet);
    let how = match p.how {
        How::Whole if grommet => "made up, through the grommet",
        How::Whole => "made up, through the hole",
        How::GrommetFirst => "slide the grommet on, crimp, then through the hole",
        How::HousingAfter => "contacts crimped; housings go on behind the panel",
        How::CrimpAfter => "bare wire, last; crimp it behind the panel",
    };
    let names = p.wires.iter().map(|w| s.loom.wire(*w).name.as_str());
    [
        p.what.clone(),
        names.collect::<Vec<_>>().join(", "),
        p.across.map_or_else(String::new, |a| a.show()),
        how.to_owned(),
    ]
}
