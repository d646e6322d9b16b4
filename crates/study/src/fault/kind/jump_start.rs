//! A 12 V vehicle jump-started with 24 V. Nobody jump-starts a 24 V vehicle with more.

use super::supplied::{is_24_v, once};
use super::{Each, Kind};
use crate::fault::Supplies;
use quantity::figures;

pub(super) const KIND: Kind = Kind {
    id: "jump-start",
    what: "a 12 V vehicle jump-started with 24 V",
    source: "ISO 16750-2 jump start: 24 V for 1 min, read in makers' varistor guides",
    each: |d| {
        if is_24_v(d) {
            return Each::of(Vec::new());
        }
        let volts = d.limits.value("jump start volts");
        let says = format!("the vehicle is jump-started with {} V", figures(volts, 3));
        once(d, says, (volts, Some("misuse lasts")), Supplies::Off)
    },
};
