//! `[[day]]` and `[wire]`.

use super::{Ask, Of, Takes, always, often, seldom, words};
use crate::SupplyState;

pub(super) const DAY: &[Ask] = &[
    often(
        "what",
        "What goes on?",
        Takes::Words("camp"),
        "It stands on the chart.",
    ),
    always(
        "hours",
        "For how long?",
        Takes::Amount("4 h"),
        "Cranking takes seconds, all else minutes or hours.",
    ),
    always(
        "supply",
        "What does the vehicle do?",
        Takes::One(|| words(&SupplyState::WORDS)),
        "With the engine running the battery fills; parked it empties.",
    ),
    often(
        "on",
        "What is on?",
        Takes::AllNamed(Of::Circuit),
        "What is live always is on anyway.",
    ),
];

pub(super) const WIRE: &[Ask] = &[
    often(
        "size",
        "Which size?",
        Takes::Amount("2.5 mm²"),
        "Instead of the one that would be chosen; it is still checked.",
    ),
    often(
        "colour",
        "Which colour?",
        Takes::Words("RD/WH"),
        "Base and stripe by IEC 60757.",
    ),
    often(
        "sheathed",
        "Has it a sleeve of its own?",
        Takes::YesNo(false),
        "Then it can hardly touch its neighbours.",
    ),
    seldom(
        "length",
        "How long is it?",
        Takes::Amount("1.4 m"),
        "If you measured it.",
    ),
    seldom(
        "route",
        "By way of which places?",
        Takes::AllNamed(Of::Place),
        "Instead of the shortest.",
    ),
    seldom(
        "insulation",
        "Which insulation?",
        Takes::Stocked("insulation"),
        "If it differs from the rest.",
    ),
];
