//! `[[feed]]`, `[[box]]`, `[[earth]]`, `[[signal]]`.

use super::{Ask, Of, Takes, always, often, seldom, words};
use crate::{EarthReturn, FeedKind, SupplyState, Surface};

const NAME: &str = "What do you call it?";
const WHERE: &str = "Where is it?";

pub(super) const FUSE: &[Ask] = &[
    seldom(
        "rating",
        "Which rating?",
        Takes::Amount("40 A"),
        "Left out, it is chosen: large enough for what flows, small enough for the wire behind it.",
    ),
    seldom(
        "kind",
        "Which kind of fuse?",
        Takes::Stocked("fuse"),
        "By name from the stock.",
    ),
    often(
        "within",
        "How far from the source does it sit?",
        Takes::Amount("150 mm"),
        "The wire before it is protected by nothing: US boat law wants it within 7 in of the source.",
    ),
    often(
        "sheathed",
        "Is the wire before it in a sleeve of its own?",
        Takes::YesNo(false),
        "Then it can hardly touch anything, and the fuse may sit further away.",
    ),
];

pub(super) const FEED: &[Ask] = &[
    always(
        "name",
        NAME,
        Takes::Words("key"),
        "Boxes and circuits name it.",
    ),
    always(
        "kind",
        "What is it?",
        Takes::One(|| words(&FeedKind::WORDS)),
        "A stud is live always; an ignition tap with the key; a spare way has the vehicle’s own fuse before it.",
    ),
    always(
        "place",
        WHERE,
        Takes::Named(Of::Place),
        "The wire begins there.",
    ),
    often(
        "fused",
        "Which fuse has the vehicle before it?",
        Takes::Amount("15 A"),
        "It protects what you add there, and limits it.",
    ),
    often(
        "gives",
        "How much may be taken there?",
        Takes::Amount("10 A"),
        "The vehicle’s own wire to it has a limit that cannot be seen from outside.",
    ),
    seldom(
        "resistance",
        "How much resistance from the battery to it?",
        Takes::Amount("5 mΩ"),
        "If measured; the volts lost before it count too.",
    ),
    seldom(
        "cover",
        "Is its live metal covered?",
        Takes::YesNo(true),
        "A dropped tool finds what is bare.",
    ),
];

pub(super) const BOX: &[Ask] = &[
    always(
        "name",
        NAME,
        Takes::Words("auxiliary box"),
        "Circuits name it.",
    ),
    always(
        "place",
        WHERE,
        Takes::Named(Of::Place),
        "Close to what feeds it, dry, and where a fuse can be changed at night.",
    ),
    always(
        "ways",
        "How many fuses does it hold?",
        Takes::Whole(1, 60),
        "One for each circuit, and some for later.",
    ),
    always(
        "feed",
        "What feeds it?",
        Takes::Named(Of::Feed),
        "The battery, or something that is live already.",
    ),
    often(
        "spare",
        "What may each free way carry one day?",
        Takes::Amount("10 A"),
        "The feeder is made thick enough for it now, while it is easy.",
    ),
    often(
        "fuse",
        "The fuse where its feeder begins",
        Takes::Fuse(FUSE),
        "It protects the feeder itself. Left out, it is chosen.",
    ),
    seldom(
        "kind",
        "Which kind of fuse does it take?",
        Takes::Stocked("fuse"),
        "By name from the stock.",
    ),
    seldom(
        "cover",
        "Is its live metal covered?",
        Takes::YesNo(true),
        "A dropped tool finds what is bare.",
    ),
];

pub(super) const EARTH: &[Ask] = &[
    always(
        "name",
        NAME,
        Takes::Words("wing earth"),
        "Circuits name it.",
    ),
    always(
        "place",
        WHERE,
        Takes::Named(Of::Place),
        "Current returns there.",
    ),
    often(
        "to",
        "Where does current go from there?",
        Takes::One(|| words(&EarthReturn::WORDS)),
        "Through the body, or by a wire to the battery where there is no body to trust.",
    ),
    often(
        "surface",
        "What is it fixed to?",
        Takes::One(|| words(&Surface::WORDS)),
        "Paint insulates; a hinge moves. Bare metal, greased once tight, is what lasts.",
    ),
];

pub(super) const SIGNAL: &[Ask] = &[
    always("name", NAME, Takes::Words("reverse"), "Circuits name it."),
    always(
        "place",
        WHERE,
        Takes::Named(Of::Place),
        "Where its wire can be reached.",
    ),
    often(
        "when",
        "When can it be there?",
        Takes::Some(|| words(&SupplyState::WORDS)),
        "Tick none if it may be there at any time.",
    ),
    often(
        "lamp",
        "Which lamps of the vehicle hang on it?",
        Takes::Amount("21 W"),
        "They are that wire’s way to earth when the signal is not there: current can go backwards through them.",
    ),
    seldom(
        "gives",
        "How much may be taken from it?",
        Takes::Amount("0.3 A"),
        "A signal bears a relay’s coil, not a lamp.",
    ),
    seldom(
        "fused",
        "Which fuse is before it?",
        Takes::Amount("10 A"),
        "The vehicle’s own.",
    ),
];
