//! Fuse: a rectangle along the conductor, which runs straight through it.

use super::{Extent, Pen};

pub(super) const EXTENT: Extent = Extent::even(6.0, 1.5);

pub(super) fn draw(pen: &mut Pen) {
    pen.rect((0.0, 0.0), (1.5, 4.0), false);
    pen.line(&[(0.0, -6.0), (0.0, 6.0)]);
}
