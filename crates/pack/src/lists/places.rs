//! What lies on each stud, and which wire goes into which way of each connector.

use crate::content::Align::{Left as L, Right as R};
use crate::content::{Block, Section, Table};
use crate::report::Subject;
use crate::tables::columns;
use loom::WireId;
use quantity::figures;
use study::Lists;

/// What lies on each stud.
pub(super) fn studs(s: &Subject, l: &Lists) -> Option<Section> {
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
    let table = Table {
        columns: columns(&[
            ("stud", L),
            ("thread", L),
            ("rings, from the metal up", L),
            ("N·m", R),
            ("on whose word", L),
        ]),
        rows: rows.collect(),
    };
    let crowded = l.studs.iter().filter(|s| s.rings.len() > study::MOST_RINGS);
    let crowded: Vec<String> = crowded.map(|stud| s.loom.pin_name(stud.pin)).collect();
    let mut says = format!(
        "The ring that carries most lies against the metal, the others on it, {} on one stud at most; washer and nut above them, and nothing between the rings (common practice, no source). The part’s own sheet wins over these torques.",
        study::MOST_RINGS
    );
    if !crowded.is_empty() {
        says += &format!(
            " Too many for one stud: {}. Put a bus bar beside it.",
            crowded.join(", ")
        );
    }
    (!l.studs.is_empty()).then(|| Section {
        id: "studs",
        title: "On which stud, in which order".into(),
        blocks: vec![Block::Text(says), Block::Table(table)],
    })
}

/// Which wire goes into which way of each connector.
pub(super) fn plugs(s: &Subject, l: &Lists) -> Option<Section> {
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
            let used = way.number <= plug.used;
            rows.push(vec![
                format!("{} ({})", part.name, part.label),
                way.number.to_string(),
                names(&way.live, if used { "its own lead" } else { blank }),
                names(&way.far, if used { "its own lead" } else { blank }),
            ]);
        }
    }
    let says = "The half towards the source carries the shrouded socket contacts: when it is unplugged it may be live, and nothing can touch it. The other half carries the pins.";
    let table = Table {
        columns: columns(&[
            ("connector", L),
            ("way", R),
            ("source half, sockets", L),
            ("far half, pins", L),
        ]),
        rows,
    };
    (!l.fit.plugs.is_empty()).then(|| Section {
        id: "ways",
        title: "Which wire in which way".into(),
        blocks: vec![Block::Text(says.into()), Block::Table(table)],
    })
}
