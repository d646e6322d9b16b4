//! Battery: cells as a long thin line (plus) and a short thick one (minus), two of them joined by a broken line.

use super::{Extent, Pen};

pub(super) const EXTENT: Extent = Extent::even(8.0, 5.0);

pub(super) fn draw(pen: &mut Pen) {
    pen.line(&[(0.0, -8.0), (0.0, -4.0)]);
    for top in [-4.0, 2.0] {
        pen.line(&[(-5.0, top), (5.0, top)]);
        pen.heavy(&[(-2.5, top + 2.0), (2.5, top + 2.0)], 1.0);
    }
    pen.link(&[(0.0, -2.0), (0.0, 2.0)]);
    pen.line(&[(0.0, 4.0), (0.0, 8.0)]);
    pen.line(&[(2.2, -6.2), (4.2, -6.2)]);
    pen.line(&[(3.2, -7.2), (3.2, -5.2)]);
}
