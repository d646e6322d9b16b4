//! Motor: a circle with the letter M, and a line under it for direct current.

use super::{Extent, Pen};

pub(super) const EXTENT: Extent = Extent::even(9.0, 5.0);

pub(super) fn draw(pen: &mut Pen) {
    pen.line(&[(0.0, -9.0), (0.0, -5.0)]);
    pen.line(&[(0.0, 5.0), (0.0, 9.0)]);
    pen.circle((0.0, 0.0), 5.0, false);
    pen.word((0.0, 1.2), 4.5, "M");
    pen.line(&[(-1.8, 2.6), (1.8, 2.6)]);
}
