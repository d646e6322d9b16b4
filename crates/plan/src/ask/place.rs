//! `[place]` and `[[stretch]]`.

use super::{Ask, Of, Takes, always, often, seldom, words};
use crate::{SleeveWish, Zone};

const AT: &[Ask] = &[
    always(
        "along",
        "How far from the front?",
        Takes::Amount("40 %"),
        "Of the vehicle’s length.",
    ),
    always(
        "across",
        "How far from the left?",
        Takes::Amount("30 %"),
        "Of its width, seen from above with the front to the left.",
    ),
];

pub(super) const PLACE: &[Ask] = &[
    always(
        "zone",
        "What is it like there?",
        Takes::One(|| words(&Zone::WORDS)),
        "How hot and how wet it gets: a wire carries less where it is hot, and what is wet asks for seals.",
    ),
    often(
        "comes_out",
        "Does it come out?",
        Takes::YesNo(false),
        "A dash panel, a seat: wires into it get a connector, so that it can be taken out again.",
    ),
    seldom(
        "heat",
        "How hot does it get?",
        Takes::Amount("75 °C"),
        "If you measured it; else the usual figure of the zone is assumed, and said so.",
    ),
    seldom(
        "wet",
        "Does water get there?",
        Takes::Either("as the zone has it"),
        "Cabin and load space are taken as dry, everywhere else as wet, unless you say otherwise.",
    ),
    seldom(
        "at",
        "Where on the outline?",
        Takes::Table(AT),
        "For the drawing only. Drag it there, or say how far from front and left.",
    ),
];

const THROUGH: &[Ask] = &[
    always(
        "panel",
        "Which panel?",
        Takes::Words("bulkhead"),
        "It stands on the board and in the steps.",
    ),
    often(
        "thickness",
        "How thick is it?",
        Takes::Amount("1.2 mm"),
        "The grommet’s groove must fit it.",
    ),
    seldom(
        "grommet",
        "Does a grommet go into the hole?",
        Takes::YesNo(true),
        "A hole’s edge saws through a wire. There is hardly ever a reason for no.",
    ),
];

pub(super) const STRETCH: &[Ask] = &[
    always(
        "between",
        "From where to where?",
        Takes::AllNamed(Of::Place),
        "Wires lie along stretches, the shortest way.",
    ),
    always(
        "length",
        "How long is it?",
        Takes::Amount("1.8 m"),
        "Laid with a string as the wire will lie. Cut lengths and voltage drops follow from it.",
    ),
    often(
        "guessed",
        "Is the length a guess?",
        Takes::YesNo(false),
        "Say yes until you have measured it: what rests on it is then told as such, and no wire should be cut by it.",
    ),
    often(
        "through",
        "Does it go through a panel?",
        Takes::Table(THROUGH),
        "A hole needs a grommet that fits bundle and panel.",
    ),
    seldom(
        "sleeve",
        "What covers the bundle?",
        Takes::One(|| words(&SleeveWish::WORDS)),
        "Against chafing; it holds some heat in, which is counted.",
    ),
    seldom(
        "heat",
        "How hot does it get on the way?",
        Takes::Amount("80 °C"),
        "If it is hotter than both its ends, as along an exhaust.",
    ),
];
