//! Relay contacts. The blade is hinged at 30, which is the moving side of a vehicle relay. A change-over
//! contact rests on 87a; its 87, here unused, stays open beside it.

use super::{Extent, Pen};

pub(super) const MAKE: Extent = Extent {
    left: 3.2,
    right: 0.6,
    up: 7.0,
    down: 7.0,
};
pub(super) const CHANGE_OVER: Extent = Extent {
    left: 0.6,
    right: 5.2,
    up: 7.0,
    down: 7.0,
};

/// Half way along the blade of a make contact: where the link to the coil ends.
pub(crate) const MAKE_BLADE: f64 = -1.6;

pub(super) fn draw_make(pen: &mut Pen) {
    pen.line(&[(0.0, -7.0), (0.0, -3.2)]);
    pen.line(&[(0.0, -3.2), (-3.0, 2.8)]);
    pen.line(&[(0.0, 3.2), (0.0, 7.0)]);
}

pub(super) fn draw_change_over(pen: &mut Pen) {
    pen.line(&[(0.0, -7.0), (0.0, -3.2)]);
    pen.line(&[(0.0, -3.2), (-0.5, 3.2)]);
    pen.line(&[(-1.5, 3.2), (0.0, 3.2), (0.0, 7.0)]);
    pen.line(&[(2.6, 3.2), (4.6, 3.2), (4.6, 4.0)]);
    pen.circle((4.6, 4.6), 0.6, false);
}

/// Pulled in.
pub(super) fn draw_made(pen: &mut Pen) {
    pen.line(&[(0.0, -7.0), (0.0, 7.0)]);
    pen.heavy(&[(0.0, -3.2), (0.0, 3.2)], 0.7);
}

/// Pulled in: 87a is left, 87 made.
pub(super) fn draw_changed(pen: &mut Pen) {
    pen.line(&[(0.0, -7.0), (0.0, -3.2)]);
    pen.heavy(&[(0.0, -3.2), (3.2, 3.0)], 0.7);
    pen.line(&[(-1.5, 3.2), (0.0, 3.2), (0.0, 7.0)]);
    pen.line(&[(2.6, 3.2), (4.6, 3.2), (4.6, 4.0)]);
    pen.circle((4.6, 4.6), 0.6, false);
}
