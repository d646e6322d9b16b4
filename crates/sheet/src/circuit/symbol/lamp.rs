//! Lamp: a circle with a diagonal cross.

use super::{Extent, Pen};

pub(super) const EXTENT: Extent = Extent::even(8.0, 4.0);

pub(super) fn draw(pen: &mut Pen) {
    pen.line(&[(0.0, -8.0), (0.0, -4.0)]);
    pen.line(&[(0.0, 4.0), (0.0, 8.0)]);
    pen.circle((0.0, 0.0), 4.0, false);
    // 4 mm · cos 45°.
    let d = 2.83;
    pen.line(&[(-d, -d), (d, d)]);
    pen.line(&[(-d, d), (d, -d)]);
}
