//! Heating element: a rectangle along the conductor, divided by cross lines.

use super::{Extent, Pen};

pub(super) const EXTENT: Extent = Extent::even(9.0, 2.0);

pub(super) fn draw(pen: &mut Pen) {
    pen.line(&[(0.0, -9.0), (0.0, -5.0)]);
    pen.line(&[(0.0, 5.0), (0.0, 9.0)]);
    pen.rect((0.0, 0.0), (2.0, 5.0), false);
    for y in [-3.0, -1.0, 1.0, 3.0] {
        pen.line(&[(-2.0, y), (2.0, y)]);
    }
}
