//! Clips by size, ties, labels, tape, and what a hole and a stud want: common practice, no document claimed.

use super::{Amount, Buy, Rows, pieces};
use crate::design::Design;
use crate::fit::{Stud, Table};
use crate::laid::Laid;
use crate::laying::Laying;
use quantity::{Quantity, figures};

/// Tape is bought in metres.
fn metres(needed: f64) -> Amount {
    Amount::Metres(needed.ceil())
}

pub(super) fn rows(
    d: &Design,
    (table, laying): (&Table, &Laying),
    (laid, studs, labels): (&[Laid], &[Stud], &[u32]),
) -> Vec<Buy> {
    let mut clips = Rows::default();
    let (mut ties, mut tape, mut holes) = (Rows::default(), Rows::default(), Rows::default());
    for l in laid {
        let s = d.loom.stretch(l.stretch);
        let ends = s.ends.map(|p| d.loom.place(p).name.as_str()).join(" – ");
        let mm = figures((l.outside.si() * 1e3 - 1e-6).ceil(), 4);
        clips.add(format!("lined clip for {mm} mm"), f64::from(l.clips), &ends);
        if l.ties > 0 {
            ties.add("cable tie".into(), f64::from(l.ties), &ends);
        }
        if l.sleeve.is_some() {
            let taped = if l.parts(d.stock) { 4.0 } else { 2.0 };
            let each = taped * laying.value("tape at an end");
            tape.add("cloth loom tape".into(), each, &ends);
        }
        if let (Some(panel), Some(_)) = (&s.panel, &l.hole) {
            holes.add(
                "primer and paint for the edge of a hole".into(),
                1.0,
                &panel.name,
            );
        }
    }
    let mut marks = Rows::default();
    let count: u32 = labels.iter().sum();
    marks.add(
        "label sleeve or wrap-round label".into(),
        f64::from(count),
        "every wire",
    );
    let mut grease = Rows::default();
    for stud in studs {
        let name = d.loom.pin_name(stud.pin);
        grease.add("contact grease for studs".into(), 0.0, &name);
    }
    let one = |_: f64| Amount::Pieces(1);
    let more = 1.0 + table.allowance("terminals").value;
    let with_spares = |needed: f64| Amount::Pieces((needed * more).ceil() as u32);
    let mut found = clips.of("clip", pieces);
    found.extend(ties.of("tie", with_spares));
    found.extend(marks.of("label", with_spares));
    found.extend(tape.of("consumable", metres));
    found.extend(holes.of("consumable", one));
    found.extend(grease.of("consumable", one));
    found
}
