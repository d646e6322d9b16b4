//! Sheets as wide as a hand: at the width of a phone (390 px) their words are 9 px tall, and two stand side by side
//! on A4 across. They are too small for a binder, so that no side is wider for holes.

use crate::geometry::Frame;

/// Width of the sheet, mm.
pub(crate) const WIDTH: f64 = 128.0;
/// From the edge of the sheet to its border, mm.
const OUTSIDE: f64 = 6.0;

/// The border of a card whose content ends at `bottom`.
pub(crate) fn border(bottom: f64) -> Frame {
    Frame {
        left: OUTSIDE,
        top: OUTSIDE,
        right: WIDTH - OUTSIDE,
        bottom,
    }
}

/// The size of a card with this border.
pub(crate) fn size(border: Frame) -> (f64, f64) {
    (WIDTH, border.bottom + OUTSIDE)
}
