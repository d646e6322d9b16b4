//! What frames the columns of a sheet: their axes, the heading above each block, the numbers below.

use super::strip::Strand;
use super::words::SIZE;
use super::{Align, Ink, Label, Layout, Line};
use crate::circuit::path::Block;
use crate::geometry::{Frame, at};
use crate::text::{ASCENT, LEADING, wrap};

/// Size of a heading, mm.
const LARGE: f64 = 3.5;
/// From the border to the headings, mm.
const AIR: f64 = 2.0;
/// Height of the strip of column numbers, mm.
pub(crate) const NUMBERS: f64 = 7.0;
/// Kept at both ends of the columns for the marks of rails that go on, mm.
pub(crate) const MARGIN: f64 = 11.0;
/// Between columns at least, and at most when there is room, mm.
pub(crate) const BETWEEN: (f64, f64) = (3.0, 14.0);

/// The axes of the strands.
pub(crate) fn axes(strands: &[Strand], area: Frame) -> Vec<f64> {
    let wide: f64 = strands.iter().map(|s| s.left + s.right).sum();
    let spare = area.right - area.left - 2.0 * MARGIN - wide;
    let between = (spare / strands.len().max(1) as f64).clamp(BETWEEN.0, BETWEEN.1);
    let mut x = area.left + MARGIN;
    let axis = |s: &Strand| {
        let axis = x + s.left;
        x = axis + s.right + between;
        axis
    };
    strands.iter().map(axis).collect()
}

/// The headings of a sheet.
pub(crate) struct Heads {
    /// From, to, and the lines between.
    spans: Vec<(f64, f64, Vec<String>)>,
    top: f64,
    /// The line below them.
    pub bottom: f64,
}

impl Heads {
    /// Of the blocks of these strands.
    pub fn of(blocks: &[Block], strands: &[Strand], xs: &[f64], area: Frame) -> Self {
        let mut spans: Vec<(usize, f64, f64)> = Vec::new();
        for (s, x) in strands.iter().zip(xs) {
            match spans.last_mut() {
                Some((b, _, right)) if *b == s.block => *right = x + s.right,
                _ => spans.push((s.block, x - s.left, x + s.right)),
            }
        }
        let lines = |(b, left, right): (usize, f64, f64)| {
            (left, right, wrap(&blocks[b].heading, LARGE, right - left))
        };
        let spans: Vec<_> = spans.into_iter().map(lines).collect();
        let most = spans
            .iter()
            .map(|(_, _, lines)| lines.len())
            .max()
            .unwrap_or(0);
        let top = area.top + AIR;
        Self {
            spans,
            top,
            bottom: top + most as f64 * LARGE * LEADING + 1.5,
        }
    }

    /// Adds them to a sheet.
    pub fn emit(self, sheet: &mut Layout) {
        for (left, right, lines) in self.spans {
            for (i, line) in lines.into_iter().enumerate() {
                let y = self.top + LARGE * ASCENT + i as f64 * LARGE * LEADING;
                sheet
                    .labels
                    .push(Label::new(line, LARGE, at(left, y), Align::Start));
            }
            sheet
                .lines
                .push(rule(vec![at(left, self.bottom), at(right, self.bottom)]));
        }
    }
}

fn rule(points: Vec<crate::geometry::Point>) -> Line {
    Line {
        name: String::new(),
        ink: Ink::Rule { thick: false },
        points,
    }
}

/// Adds the column numbers, in one run along the bottom.
pub(crate) fn numbers(sheet: &mut Layout, strands: &[Strand], xs: &[f64], area: Frame) {
    let y = area.bottom - NUMBERS;
    sheet
        .lines
        .push(rule(vec![at(area.left, y), at(area.right, y)]));
    for (strand, x) in strands.iter().zip(xs) {
        sheet.lines.push(rule(vec![at(*x, y), at(*x, y + 1.2)]));
        let place = at(*x, y + 1.6 + SIZE * ASCENT);
        sheet.labels.push(Label::new(
            strand.number.to_string(),
            SIZE,
            place,
            Align::Middle,
        ));
    }
}
