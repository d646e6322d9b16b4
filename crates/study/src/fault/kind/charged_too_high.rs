//! A regulator that no longer holds the voltage down.

use super::Kind;
use super::supplied::{blocks, once};
use crate::fault::Supplies;
use quantity::figures;

pub(super) const KIND: Kind = Kind {
    id: "charged-too-high",
    what: "a regulator that lets the voltage rise to 16 V per 12 V",
    source: "ISO 16750-2 codes A to D: most supply voltage 16 V, read",
    each: |d| {
        let volts = d.limits.value("highest volts of equipment") * blocks(d);
        let says = format!(
            "the regulator lets the voltage rise to {} V",
            figures(volts, 3)
        );
        once(d, says, (volts, None), Supplies::Running)
    },
};
