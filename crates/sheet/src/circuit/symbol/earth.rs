//! Frame earth: slanted strokes below a level line. The stud that the ring sits on is a small circle.

use super::{Extent, Pen};

pub(super) const EXTENT: Extent = Extent {
    up: 1.0,
    down: 3.4,
    left: 4.0,
    right: 4.0,
};

pub(super) fn draw(pen: &mut Pen) {
    pen.heavy(&[(-3.6, 0.0), (3.6, 0.0)], 0.5);
    for x in [-3.0, 0.0, 3.0] {
        pen.line(&[(x + 0.4, 0.2), (x - 0.9, 3.2)]);
    }
    pen.circle((0.0, 0.0), 0.9, false);
}
