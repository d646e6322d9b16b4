//! Socket for whatever is plugged in: the centre contact (+) inside the open shell (−).

use super::{Extent, Pen};

pub(super) const EXTENT: Extent = Extent::even(8.5, 4.5);

pub(super) fn draw(pen: &mut Pen) {
    pen.arc((-1.6, -4.2), (1.6, -4.2), 4.5, (true, false));
    pen.line(&[(0.0, -8.5), (0.0, -0.8)]);
    pen.circle((0.0, 0.0), 0.8, true);
    pen.line(&[(0.0, 4.5), (0.0, 8.5)]);
}
