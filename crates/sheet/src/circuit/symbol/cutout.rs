//! Cut-out: a box around a functional unit, in it a make contact, worked by what measures undervoltage (U<).
//! Its 31 leaves level at the right; the anchor lies on the axis, level with it.

use super::{Extent, Pen};

pub(super) const EXTENT: Extent = Extent {
    left: 11.8,
    right: CUTOUT_SIDE,
    up: 13.2,
    down: 5.2,
};

/// Where 31 leaves, from the axis.
pub(crate) const CUTOUT_SIDE: f64 = 2.4;

/// The middle of the contact.
const MIDDLE: f64 = -4.0;

pub(super) fn draw(pen: &mut Pen) {
    around(pen);
    pen.line(&[(0.0, MIDDLE - 3.2), (-3.0, MIDDLE + 2.8)]);
    pen.link(&[(-4.8, MIDDLE), (-1.6, MIDDLE)]);
}

/// In: it lets current through.
pub(super) fn draw_in(pen: &mut Pen) {
    around(pen);
    pen.heavy(&[(0.0, MIDDLE - 3.2), (0.0, MIDDLE + 3.2)], 0.7);
    pen.link(&[(-4.8, MIDDLE), (0.0, MIDDLE)]);
}

fn around(pen: &mut Pen) {
    pen.rect((-4.7, MIDDLE), (7.1, 5.2), false);
    pen.line(&[(0.0, -13.2), (0.0, MIDDLE - 3.2)]);
    pen.line(&[(0.0, MIDDLE + 3.2), (0.0, 5.2)]);
    pen.rect((-7.8, MIDDLE), (3.0, 2.4), false);
    pen.word((-7.8, MIDDLE + 1.1), 3.0, "U<");
}
