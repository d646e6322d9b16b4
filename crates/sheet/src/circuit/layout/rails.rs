//! Rails: the level lines of feeds and boxes at the top with their names, with marks where they come from
//! another sheet or go on to one, and the line of the body at the bottom.

use super::rows::{Key, Rows};
use super::strip::{Numbered, Strand};
use super::words::{SIZE, Words};
use super::{Align, Ink, Label, Layout, Line};
use crate::circuit::path::{Foot, Top};
use crate::geometry::{Frame, at};
use crate::text::{ASCENT, LEADING, wrap};
use loom::{PartKind, PinId};
use std::collections::BTreeMap;

/// From the baseline of words above a rail to the rail, mm.
const ABOVE: f64 = 1.8;
/// How far a rail reaches beyond its last column, mm.
const BEYOND: f64 = 4.0;

/// The rails of a sheet, each with the strands on it.
pub(crate) fn rails(strands: &[Strand]) -> Vec<(PinId, Vec<usize>)> {
    let mut out: BTreeMap<PinId, Vec<usize>> = BTreeMap::new();
    for (i, s) in strands.iter().enumerate() {
        if let Top::Rail(pin) = s.top {
            out.entry(pin).or_default().push(i);
        }
        if let Foot::Bus(pin) = s.foot {
            out.entry(pin).or_default().push(i);
        }
    }
    out.into_iter().collect()
}

/// A rail on a sheet.
pub(crate) struct Rail {
    pin: PinId,
    /// Whether it is a box's.
    pub bus: bool,
    /// The axes of its first and its last column.
    span: (f64, f64),
    /// The left edge of its name.
    left: f64,
    /// Its name.
    pub lines: Vec<String>,
    /// The name stands below the rail: that of a box whose feeder is alone on the sheet.
    under: bool,
}

/// Whether a rail is on an earlier sheet too, and on a later one.
type Elsewhere<'a> = dyn Fn(PinId) -> (bool, bool) + 'a;

/// The rails of a sheet with their names, which keep left of `edge`.
pub(crate) fn named(
    words: &Words,
    strands: &[Strand],
    xs: &[f64],
    (edge, elsewhere): (f64, &Elsewhere),
) -> Vec<Rail> {
    let name = |(pin, mine): (PinId, Vec<usize>)| {
        let feeder = |i: &usize| matches!(strands[*i].foot, Foot::Bus(p) if p == pin);
        let bus = matches!(words.loom.part_of(pin).kind, PartKind::Box(_));
        let begins = mine.first().copied().unwrap_or(0);
        let last = mine.last().copied().unwrap_or(begins);
        let under = mine.len() == 1 && feeder(&begins);
        // The name of a box stands right of its feeder, whose own labels end at the rail.
        let first = if feeder(&begins) && !under {
            begins + 1
        } else {
            begins
        };
        // One that comes from another sheet is named at once.
        let (comes, goes) = elsewhere(pin);
        let first = if comes { 0 } else { first };
        let left = xs[first] - strands[first].left.min(4.0);
        // One that goes on is the last of its level.
        let right = if goes {
            edge
        } else {
            xs[last] + strands[last].right
        };
        Rail {
            pin,
            bus,
            span: (xs[begins], xs[last]),
            left,
            lines: wrap(&words.rail(pin), SIZE, right - left),
            under,
        }
    };
    rails(strands).into_iter().map(name).collect()
}

/// Which sheet this is, of which.
pub(crate) struct Among<'a> {
    pub pages: &'a [Vec<Numbered<'a>>],
    pub index: usize,
}

impl Among<'_> {
    /// The nearest sheets before and after this one that bear the rail.
    fn neighbours(&self, pin: PinId) -> (Option<usize>, Option<usize>) {
        let on = |i: &usize| self.pages[*i].iter().any(|n| n.is_on(pin));
        (
            (0..self.index).rev().find(on),
            (self.index + 1..self.pages.len()).find(on),
        )
    }
}

/// Draws the rails.
pub(crate) fn emit(
    sheet: &mut Layout,
    words: &Words,
    rows: &Rows,
    rails: &[Rail],
    (among, area): (&Among, Frame),
) {
    for rail in rails {
        let y = rows.at(if rail.bus { Key::Buses } else { Key::Feeds });
        let (before, after) = among.neighbours(rail.pin);
        let mut left = rail.span.0 - if rail.bus { 0.0 } else { BEYOND };
        let mut right = rail.span.1 + BEYOND;
        let mut label = |text: String, place, align| {
            let label = Label::new(text, SIZE, place, align);
            sheet
                .labels
                .push(label.of(&words.loom.part_of(rail.pin).name));
        };
        if let Some(page) = before {
            left = area.left + 2.0;
            // Below: above it would run into the rail's name.
            let below = y + 1.0 + SIZE * ASCENT;
            label(format!("{} →", page + 1), at(left, below), Align::Start);
        }
        if let Some(page) = after {
            right = area.right - 2.0;
            label(format!("→ {}", page + 1), at(right, y - ABOVE), Align::End);
        }
        let step = SIZE * LEADING;
        let under = y + 1.0 + SIZE * ASCENT + (rail.lines.len() as f64 - 1.0) * step;
        let lowest = if rail.under { under } else { y - ABOVE };
        for (i, line) in rail.lines.iter().rev().enumerate() {
            label(
                line.clone(),
                at(rail.left, lowest - i as f64 * step),
                Align::Start,
            );
        }
        let name = words.loom.part_of(rail.pin).name.clone();
        sheet.lines.push(Line {
            name,
            ink: Ink::Rail,
            points: vec![at(left, y), at(right, y)],
        });
    }
}

/// Draws the body: one line along the bottom.
pub(crate) fn body(sheet: &mut Layout, rows: &Rows, area: Frame) {
    let y = rows.at(Key::Earths);
    let points = vec![at(area.left + 2.0, y), at(area.right - 2.0, y)];
    sheet.lines.push(Line {
        name: "31".to_owned(),
        ink: Ink::Body,
        points,
    });
    let place = at(area.left + 2.0, y - 1.5);
    sheet
        .labels
        .push(Label::new("31".to_owned(), SIZE, place, Align::Start));
}
