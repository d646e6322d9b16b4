//! A pair of connector halves: the socket is an open bow around the pin, which is a filled bar.

use super::{Extent, Pen};

pub(super) const EXTENT: Extent = Extent::even(3.5, 1.8);

pub(super) fn draw(pen: &mut Pen, socket_above: bool) {
    // Drawn with the socket above, or turned over.
    let s = if socket_above { 1.0 } else { -1.0 };
    pen.line(&[(0.0, -3.5 * s), (0.0, -1.8 * s)]);
    pen.arc(
        (-1.6, -0.2 * s),
        (1.6, -0.2 * s),
        1.6,
        (false, socket_above),
    );
    pen.rect((0.0, 0.9 * s), (0.5, 1.7), true);
    pen.line(&[(0.0, 2.6 * s), (0.0, 3.5 * s)]);
}
