//! A meeting point of conductors: a filled dot.

use super::{Extent, Pen};

pub(super) const EXTENT: Extent = Extent::even(0.8, 0.8);

pub(super) fn draw(pen: &mut Pen) {
    pen.circle((0.0, 0.0), 0.7, true);
}
