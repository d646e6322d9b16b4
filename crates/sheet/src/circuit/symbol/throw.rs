//! Three-position switch at rest: off. On auto it takes 83a (left), the signal; on on it takes 83b, which
//! lies on the axis; the common 83 leaves below. The positions are named, whatever order a bought switch has.

use super::switch::hand;
use super::{Extent, Pen, THIN, Worked};

pub(super) const EXTENT: Extent = Extent {
    left: 18.5,
    right: 6.0,
    up: 10.0,
    down: 8.0,
};

/// Where 83a comes in, from the axis.
pub(crate) const SECOND_INPUT: f64 = -10.0;

/// The middle of the bar that a hand works: below the word beside it.
const HAND: (f64, f64) = (-17.5, 1.8);

pub(super) fn draw(pen: &mut Pen) {
    draw_at(pen, Worked::Rest);
}

/// In one of its positions.
pub(super) fn draw_at(pen: &mut Pen, worked: Worked) {
    for x in [0.0, SECOND_INPUT] {
        pen.line(&[(x, -10.0), (x, -2.6)]);
    }
    let middle = SECOND_INPUT / 2.0;
    let tip = match worked {
        Worked::Rest => middle,
        Worked::Auto => SECOND_INPUT,
        Worked::On => 0.0,
    };
    let width = if worked == Worked::Rest { THIN } else { 0.7 };
    pen.heavy(&[(tip, -2.6), (middle, 3.4)], width);
    pen.line(&[(middle, 3.4), (0.0, 3.4), (0.0, 8.0)]);
    pen.circle((middle, 3.4), 0.5, true);
    pen.link(&[(middle, HAND.1), HAND]);
    pen.word((middle, -3.4), 3.0, "0");
    pen.word((SECOND_INPUT - 4.4, -1.2), 3.0, "auto");
    pen.word((3.2, -1.2), 3.0, "on");
    hand(pen, HAND);
}
