//! The tables of a report. Columns say their unit; figures are rounded as a person reads them.

use crate::content::Align::{self, Left as L, Right as R};
use crate::content::{Column, Table};
use crate::report::Subject;
use loom::{Assumption, PartKind};
use plan::SleeveWish;
use quantity::{Quantity, figures};

/// Columns from titles and sides.
pub(crate) fn columns(titles: &[(&'static str, Align)]) -> Vec<Column> {
    titles
        .iter()
        .map(|(title, align)| Column {
            title: (*title).into(),
            align: *align,
        })
        .collect()
}

/// Every wire.
pub(crate) fn wires(s: &Subject) -> Table {
    let rows = s.answers.wires.iter().map(|a| {
        let w = s.loom.wire(a.wire);
        let c = &s.stock.conductors[a.conductor];
        vec![
            w.name.clone(),
            s.loom.pin_name(w.from),
            s.loom.pin_name(w.to),
            c.size.to_string(),
            w.colour.to_string(),
            figures(w.cut.si(), 3),
            figures(a.amps, 3),
            format!("{:.0}, {:.0}", a.celsius, a.limit_celsius),
            format!("{:.2}", a.drop_v),
            w.fuse
                .map_or_else(|| "–".into(), |f| s.loom.part(f).name.clone()),
            a.governed_by.clone(),
        ]
    });
    Table {
        columns: columns(&[
            ("wire", L),
            ("from", L),
            ("to", L),
            ("size", R),
            ("colour", L),
            ("cut, m", R),
            ("A", R),
            ("°C, limit", R),
            ("drop, V", R),
            ("fuse", L),
            ("size set by", L),
        ]),
        rows: rows.collect(),
    }
}

/// Every fuse.
pub(crate) fn fuses(s: &Subject) -> Table {
    let rows = s.answers.fuses.iter().map(|a| {
        let p = s.loom.part(a.part);
        let kind = &s.stock.fuses[a.kind];
        let seat = match &p.kind {
            PartKind::Fuse(f) => match f.way {
                Some((b, way)) => format!("{}, way {way}", s.loom.part(b).label),
                None => format!("in the line at {}", s.loom.place(p.place).name),
            },
            _ => String::new(),
        };
        let colour = kind.rating(a.rating_a).map_or("", |r| r.colour.as_str());
        vec![
            p.name.clone(),
            p.label.clone(),
            seat,
            format!("{} A", figures(a.rating_a, 3)),
            kind.name.clone(),
            if colour == "none" {
                String::new()
            } else {
                colour.to_owned()
            },
            figures(a.amps, 3),
            figures(a.bears_a, 3),
        ]
    });
    Table {
        columns: columns(&[
            ("fuse", L),
            ("for", L),
            ("where", L),
            ("rating", R),
            ("class", L),
            ("colour", L),
            ("A drawn", R),
            ("A it may carry on, at its heat", R),
        ]),
        rows: rows.collect(),
    }
}

/// Every load.
pub(crate) fn loads(s: &Subject) -> Table {
    let rows = s.answers.loads.iter().map(|a| {
        let p = s.loom.part(a.part);
        vec![
            p.name.clone(),
            p.label.clone(),
            s.loom.place(p.place).name.clone(),
            format!("{:.2}", a.volts),
            figures(a.amps, 3),
            format!("{:.1} of {}", a.drop_percent, figures(a.limit_percent, 3)),
            s.answers.states[a.state].state.name.clone(),
        ]
    });
    Table {
        columns: columns(&[
            ("load", L),
            ("what", L),
            ("where", L),
            ("V at it", R),
            ("A", R),
            ("drop, % of allowed", R),
            ("worst when", L),
        ]),
        rows: rows.collect(),
    }
}

/// Relays and switches.
pub(crate) fn parts(s: &Subject) -> Table {
    let rows = s.answers.parts.iter().map(|a| {
        let p = s.loom.part(a.part);
        vec![
            p.name.clone(),
            p.label.clone(),
            s.loom.place(p.place).name.clone(),
            a.class.clone(),
            figures(a.amps, 3),
            figures(a.bears_a, 3),
        ]
    });
    Table {
        columns: columns(&[
            ("part", L),
            ("what", L),
            ("where", L),
            ("class", L),
            ("A switched", R),
            ("A allowed of this load", R),
        ]),
        rows: rows.collect(),
    }
}

/// What lies in each stretch.
pub(crate) fn bundles(s: &Subject) -> Table {
    let laid = s
        .loom
        .stretches
        .iter()
        .enumerate()
        .filter(|(_, st)| !st.wires.is_empty());
    let rows = laid.map(|(i, st)| {
        let laid = s.answers.bundles[i];
        let bundle = laid.laid;
        let sleeve = match st.sleeve {
            SleeveWish::Open => "none, tied".to_owned(),
            kind => s
                .stock
                .sleeve_for(kind.word(), bundle)
                .map_or_else(|| format!("{}: none fits", kind.word()), |f| f.name.clone()),
        };
        let panel = st.panel.as_ref().map_or_else(String::new, |p| {
            let thick = p.thickness;
            match s.stock.grommet_for(bundle, thick).filter(|_| p.grommet) {
                Some(g) => format!(
                    "{}: grommet {} bore, hole {}",
                    p.name,
                    g.bore.show(),
                    g.hole.show()
                ),
                None => format!("{}: no grommet", p.name),
            }
        });
        vec![
            format!(
                "{} – {}",
                s.loom.place(st.ends[0]).name,
                s.loom.place(st.ends[1]).name
            ),
            st.length.show(),
            st.wires.len().to_string(),
            figures(laid.least.si() * 1e3, 3),
            figures(bundle.si() * 1e3, 3),
            sleeve,
            panel,
            st.wires
                .iter()
                .map(|w| s.loom.wire(*w).name.as_str())
                .collect::<Vec<_>>()
                .join(" "),
        ]
    });
    Table {
        columns: columns(&[
            ("stretch", L),
            ("length", R),
            ("wires", R),
            ("least, mm", R),
            ("laid, mm", R),
            ("sleeve", L),
            ("through", L),
            ("which", L),
        ]),
        rows: rows.collect(),
    }
}

/// What was assumed.
pub(crate) fn assumed(list: &[Assumption]) -> Table {
    let rows = list.iter().map(|a| {
        vec![
            a.what.clone(),
            a.value.clone(),
            format!("{} ({})", a.source, a.basis),
            a.set.clone(),
        ]
    });
    Table {
        columns: columns(&[
            ("what", L),
            ("taken as", R),
            ("on whose word", L),
            ("to set it", L),
        ]),
        rows: rows.collect(),
    }
}

/// Figures that were recalled, not read.
pub(crate) fn recalled(s: &Subject) -> Table {
    let rows = s
        .answers
        .recalled
        .iter()
        .map(|r| vec![r.of.clone(), r.source.clone(), r.basis.to_string()]);
    Table {
        columns: columns(&[("figure", L), ("recalled of", L), ("basis", L)]),
        rows: rows.collect(),
    }
}
