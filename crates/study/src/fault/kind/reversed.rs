//! The battery connected the wrong way round.

use super::Kind;
use super::supplied::{blocks, once};
use crate::fault::Supplies;

pub(super) const KIND: Kind = Kind {
    id: "battery-reversed",
    what: "the battery connected the wrong way round",
    source: "ISO 16750-2 reverse voltage: −14 V for 60 s, from memory",
    each: |d| {
        let volts = -d.limits.value("reversed volts") * blocks(d);
        let says = "the battery is connected the wrong way round".to_owned();
        once(d, says, (volts, Some("misuse lasts")), Supplies::Off)
    },
};
