//! What the strands of a sheet ask of its levels: how far apart things stand, and what must not stand
//! under a relay's link.

use super::rows::{Key, Rows};
use super::strip::{Cell, Strand};
use crate::circuit::path::{Foot, Top};

/// How far apart two pieces of a column stand at least, anchor to anchor.
pub(crate) fn apart(upper: &Cell, lower: &Cell) -> f64 {
    upper.piece.frame().bottom + lower.above.least() - lower.piece.frame().top
}

/// Says of every strand what stands below what.
pub(crate) fn demand(rows: &mut Rows, strands: &[Strand]) {
    for strand in strands {
        for pair in strand.cells.windows(2) {
            rows.below(pair[0].key, pair[1].key, apart(&pair[0], &pair[1]));
        }
        for cell in &strand.cells {
            if let Key::Throw(part) = cell.key {
                rows.below(Key::ThrowTop(part), cell.key, cell.piece.pins.0);
            }
            if cell.key == Key::Sinks {
                rows.below(Key::Sinks, Key::Earths, cell.piece.frame().bottom + 2.0);
            }
        }
    }
}

/// A column that stands under a relay's link, or under the line from its contact to its control, must
/// begin below it: then it leaves the level of the other stubs.
pub(crate) fn clear_links(rows: &mut Rows, strands: &mut [Strand]) {
    let mut spans: Vec<(Key, usize, usize)> = Vec::new();
    for (right, cell) in strands
        .iter()
        .enumerate()
        .flat_map(|(i, s)| s.cells.iter().map(move |c| (i, c)))
    {
        let same = |s: &Strand| match cell.key {
            Key::Link(_) => s.cells.iter().any(|c| c.key == cell.key),
            Key::Node(pin) => s.top == Top::Branch(pin),
            _ => false,
        };
        let left = strands[..right].iter().position(same);
        spans.extend(left.map(|left| (cell.key, left, right)));
    }
    for (key, left, right) in spans {
        for (at, strand) in strands.iter_mut().enumerate().take(right).skip(left + 1) {
            let begins = match strand.top {
                Top::Branch(pin) => key != Key::Node(pin) && strand.refers,
                _ => !matches!(strand.foot, Foot::Throw(_)),
            };
            let Some(first) = strand.cells.first_mut().filter(|_| begins) else {
                continue;
            };
            if first.key == Key::Stubs {
                first.key = Key::Free(at, 0);
            }
            rows.below(key, first.key, 2.0 - first.piece.frame().top);
        }
    }
}
