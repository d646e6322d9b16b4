//! Relays, switches, cut-outs, isolators.

use super::{Ask, Of, Takes, always, often, seldom, words};
use crate::SwitchBreaks;

const WHERE: &str = "Where is it?";

pub(super) const RELAY: &[Ask] = &[
    always(
        "place",
        WHERE,
        Takes::Named(Of::Place),
        "Near the fuse box, so that the thick wire stays short.",
    ),
    seldom(
        "kind",
        "Which relay?",
        Takes::Stocked("relay"),
        "Left out, it is chosen.",
    ),
    seldom(
        "earth",
        "Where does its coil return?",
        Takes::Named(Of::Earth),
        "Where the circuit does if you leave it out.",
    ),
    seldom(
        "bare",
        "Is it without its socket?",
        Takes::YesNo(false),
        "Then its tabs are live metal that a tool can touch.",
    ),
];

pub(super) const SWITCH: &[Ask] = &[
    always(
        "place",
        WHERE,
        Takes::Named(Of::Place),
        "Where the hand is.",
    ),
    often(
        "breaks",
        "Which side of the relay’s coil does it break?",
        Takes::One(|| words(&SwitchBreaks::WORDS)),
        "With the supply side a chafed wire to the switch opens a fuse; with the earth side it turns the load on. Only with a relay.",
    ),
    often(
        "auto",
        "Has it a middle position, on with a signal?",
        Takes::Named(Of::Signal),
        "Off, with the signal, on: three positions. Only with a relay.",
    ),
    seldom(
        "kind",
        "Which switch?",
        Takes::Stocked("switch"),
        "Left out, it is chosen.",
    ),
    seldom(
        "rating",
        "What is it rated for?",
        Takes::Amount("16 A"),
        "As printed, if you have it already.",
    ),
    seldom(
        "earth",
        "Where does it return, if it breaks the earth?",
        Takes::Named(Of::Earth),
        "Where the circuit does if you leave it out.",
    ),
    seldom(
        "bare",
        "Are its tabs bare?",
        Takes::YesNo(false),
        "Live metal behind the dash.",
    ),
];

pub(super) const CUTOUT: &[Ask] = &[
    always(
        "place",
        WHERE,
        Takes::Named(Of::Place),
        "Near the battery, so that it sees the battery’s voltage and not that of a long wire.",
    ),
    always(
        "opens",
        "Below which voltage does it cut out?",
        Takes::Amount("11.8 V"),
        "So that enough is left to start the engine.",
    ),
    always(
        "closes",
        "Above which does it come back?",
        Takes::Amount("12.8 V"),
        "Well above the other, or it chatters.",
    ),
    seldom(
        "rating",
        "What may it carry?",
        Takes::Amount("40 A"),
        "As printed.",
    ),
    seldom(
        "draws",
        "What does it draw itself?",
        Takes::Amount("5 mA"),
        "It never sleeps.",
    ),
    seldom(
        "earth",
        "Where does it return?",
        Takes::Named(Of::Earth),
        "Where the circuit does if you leave it out.",
    ),
];

pub(super) const ISOLATOR: &[Ask] = &[
    always(
        "place",
        WHERE,
        Takes::Named(Of::Place),
        "Where it is reached in a hurry.",
    ),
    seldom(
        "kind",
        "Which one?",
        Takes::Stocked("switch"),
        "Left out, it is chosen.",
    ),
    seldom(
        "rating",
        "What is it rated for?",
        Takes::Amount("100 A"),
        "As printed.",
    ),
];
