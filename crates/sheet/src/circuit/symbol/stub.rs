//! A short piece of rail: the vehicle's own wiring, reached here.

use super::{Extent, Pen};

pub(super) const EXTENT: Extent = Extent::even(0.6, 4.0);

pub(super) fn draw(pen: &mut Pen) {
    pen.heavy(&[(-4.0, 0.0), (4.0, 0.0)], 1.0);
}
