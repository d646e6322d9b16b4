//! What lies on each stud, and which wire goes into which way of each connector.

use crate::content::Align::{Left as L, Right as R};
use crate::content::{Block, Section, Table};
use crate::report::Subject;
use crate::tables::columns;
use loom::{Loom, WireId};
use quantity::figures;
use study::{Lists, Stud};

/// What lies on each stud.
pub(super) fn stud_table(s: &Subject, l: &Lists) -> Table {
    let rows = l.studs.iter().map(|stud| {
        let part = s.loom.part_of(stud.pin);
        let torque = stud.torque.map(|t| &s.stock.torques[t]);
        let range = torque.map_or_else(
            || "as its own sheet says".to_owned(),
            |t| match t.least == t.most {
                true => figures(t.least, 3),
                false => format!("{} to {}", figures(t.least, 3), figures(t.most, 3)),
            },
        );
        let names = stud.rings.iter().map(|w| s.loom.wire(*w).name.as_str());
        vec![
            format!("{} ({})", s.loom.pin_name(stud.pin), part.label),
            stud.stud.clone(),
            names.collect::<Vec<_>>().join(", "),
            range,
            torque.map_or_else(String::new, |t| t.origin.to_string()),
        ]
    });
    Table {
        columns: columns(&[
            ("stud", L),
            ("thread", L),
            ("rings, from the metal up", L),
            ("N·m", R),
            ("on whose word", L),
        ]),
        rows: rows.collect(),
    }
}

/// The same with how rings lie.
pub(super) fn studs(s: &Subject, l: &Lists) -> Option<Section> {
    let named = |test: fn(&Stud, &Loom) -> bool| -> String {
        let each = l.studs.iter().filter(|stud| test(stud, s.loom));
        let names: Vec<String> = each.map(|stud| s.loom.pin_name(stud.pin)).collect();
        names.join(", ")
    };
    let (bars, crowded) = (named(Stud::is_bar), named(Stud::is_crowded));
    let mut says = format!(
        "The ring that carries most lies against the metal, the others on it, {} on one stud at most; washer and nut above them, and nothing between the rings (makers’ data sheets for this class, read). The part’s own sheet wins over these torques.",
        study::MOST_RINGS
    );
    if !bars.is_empty() {
        says += &format!(" A bar with a stud for each ring: {bars}.");
    }
    if !crowded.is_empty() {
        says += &format!(" Too many for one stud: {crowded}.");
    }
    (!l.studs.is_empty()).then(|| Section {
        id: "studs",
        title: "On which stud, in which order".into(),
        blocks: vec![Block::Text(says), Block::Table(stud_table(s, l))],
    })
}

/// Which wire goes into which way of each connector.
pub(super) fn way_table(s: &Subject, l: &Lists) -> Table {
    let mut rows = Vec::new();
    for plug in &l.fit.plugs {
        let part = s.loom.part(plug.part);
        let names = |wires: &[WireId], none: &str| match wires {
            [] => none.to_owned(),
            _ => {
                let names = wires.iter().map(|w| s.loom.wire(*w).name.as_str());
                names.collect::<Vec<_>>().join(", ")
            }
        };
        let sealed = matches!(&plug.class, Ok((c, _)) if s.stock.connectors[*c].sealed);
        for way in study::ways(s.loom, plug) {
            let blank = if sealed {
                "empty: blanking plug"
            } else {
                "empty"
            };
            let lead = way
                .own
                .map(|part| format!("{}’s own lead", s.loom.part(part).name));
            let none = lead.as_deref().unwrap_or(blank);
            rows.push(vec![
                format!("{} ({})", part.name, part.label),
                way.number.to_string(),
                names(&way.live, none),
                names(&way.far, none),
            ]);
        }
    }
    Table {
        columns: columns(&[
            ("connector", L),
            ("way", R),
            ("source half, sockets", L),
            ("far half, pins", L),
        ]),
        rows,
    }
}

/// The same with what the halves are.
pub(super) fn plugs(s: &Subject, l: &Lists) -> Option<Section> {
    let says = "The half towards the source carries the shrouded socket contacts: when it is unplugged it may be live, and nothing can touch it. The other half carries the pins; their marks have a prime (X0.1:1’). What is plugged to a load’s own lead gets its contact and seal crimped to that lead.";
    (!l.fit.plugs.is_empty()).then(|| Section {
        id: "ways",
        title: "Which wire in which way".into(),
        blocks: vec![Block::Text(says.into()), Block::Table(way_table(s, l))],
    })
}
