//! The battery comes off while the alternator charges it.

use super::Kind;
use super::supplied::{is_24_v, once};
use crate::fault::Supplies;
use quantity::figures;

const LASTS: &str = "load dump lasts";

pub(super) const KIND: Kind = Kind {
    id: "load-dump",
    what: "the battery comes off while the alternator charges it",
    source: "ISO 16750-2 load dump, test B (clamped by the alternator), read in a makers' manual",
    each: |d| {
        let name = match is_24_v(d) {
            true => "load dump clamped, 24 V",
            false => "load dump clamped, 12 V",
        };
        let volts = d.limits.value(name);
        let says = format!(
            "the battery comes off while it is charged: {} V for up to {} s, if the alternator clamps it",
            figures(volts, 3),
            figures(d.limits.value(LASTS), 3)
        );
        once(d, says, (volts, Some(LASTS)), Supplies::Running)
    },
};
