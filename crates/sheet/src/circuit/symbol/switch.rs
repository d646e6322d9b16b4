//! Hand-operated switch: a make contact with its actuator, a broken line to a bar.

use super::{Extent, Pen};

pub(super) const EXTENT: Extent = Extent {
    left: 8.6,
    right: 0.6,
    up: 7.0,
    down: 7.0,
};

pub(super) fn draw(pen: &mut Pen) {
    pen.line(&[(0.0, -7.0), (0.0, -3.2)]);
    pen.line(&[(-3.0, -2.8), (0.0, 3.2)]);
    pen.line(&[(0.0, 3.2), (0.0, 7.0)]);
    pen.link(&[(-1.6, 0.0), (-7.6, 0.0)]);
    hand(pen, (-7.6, 0.0));
}

/// The bar that a hand works, with its two ends turned in.
pub(super) fn hand(pen: &mut Pen, (x, y): (f64, f64)) {
    let (top, bottom) = (y - 1.6, y + 1.6);
    pen.line(&[(x + 1.0, top), (x, top), (x, bottom), (x + 1.0, bottom)]);
}

/// On.
pub(super) fn draw_on(pen: &mut Pen) {
    pen.line(&[(0.0, -7.0), (0.0, 7.0)]);
    pen.heavy(&[(0.0, -3.2), (0.0, 3.2)], 0.7);
    pen.link(&[(0.0, 0.0), (-6.0, 0.0)]);
    hand(pen, (-6.0, 0.0));
}
