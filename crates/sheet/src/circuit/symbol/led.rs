//! Light-emitting diode: a triangle that points along the current at a bar, and two arrows that leave it.

use super::{Extent, Pen};

pub(super) const EXTENT: Extent = Extent {
    up: 7.0,
    down: 7.0,
    left: 2.6,
    right: 7.2,
};

pub(super) fn draw(pen: &mut Pen) {
    pen.line(&[(0.0, -7.0), (0.0, 7.0)]);
    pen.polygon(&[(-2.5, -2.2), (2.5, -2.2), (0.0, 2.2)], false);
    pen.line(&[(-2.5, 2.2), (2.5, 2.2)]);
    for y in [-0.2, 2.2] {
        pen.line(&[(3.0, y), (6.4, y - 2.4)]);
        pen.polygon(&[(7.0, y - 2.8), (5.4, y - 2.5), (6.2, y - 1.4)], true);
    }
}
