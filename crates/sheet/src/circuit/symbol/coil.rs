//! Relay coil: a rectangle across the conductor, with what stands across it if anything does.

use super::{Extent, Pen};

/// What stands across a coil to take its surge.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Across {
    Nothing,
    Resistor,
    Diode,
}

pub(super) fn extent(across: Across) -> Extent {
    let left = if across == Across::Nothing { 5.0 } else { 11.0 };
    Extent {
        left,
        ..Extent::even(7.0, 5.0)
    }
}

pub(super) fn draw(pen: &mut Pen, across: Across) {
    pen.line(&[(0.0, -7.0), (0.0, -2.5)]);
    pen.line(&[(0.0, 2.5), (0.0, 7.0)]);
    pen.rect((0.0, 0.0), (5.0, 2.5), false);
    if across == Across::Nothing {
        return;
    }
    pen.line(&[(0.0, -3.0), (-9.5, -3.0), (-9.5, 3.0), (0.0, 3.0)]);
    if across == Across::Resistor {
        pen.rect((-9.5, 0.0), (0.8, 1.9), false);
    } else {
        // It blocks while the coil is fed: its point looks at 86.
        pen.polygon(&[(-10.7, 1.2), (-8.3, 1.2), (-9.5, -1.0)], false);
        pen.line(&[(-10.7, -1.0), (-8.3, -1.0)]);
    }
}
