//! A load of a circuit.

use super::{Ask, Of, Takes, always, often, seldom, words};
use crate::LampKind;

const DUTY: &[Ask] = &[
    always(
        "on",
        "For how long is it on?",
        Takes::Amount("15 min"),
        "Each time.",
    ),
    always(
        "every",
        "Of how long?",
        Takes::Amount("45 min"),
        "From one start to the next.",
    ),
];

pub(super) const ASKS: &[Ask] = &[
    seldom(
        "lamp",
        "A lamp: of which kind?",
        Takes::One(|| words(&LampKind::WORDS)),
        "A filament draws about ten times its current for a moment (from memory), and less of it at less voltage; an LED driver draws more.",
    ),
    seldom(
        "motor",
        "A motor: of what?",
        Takes::Words("pump"),
        "A motor draws several times its current while it starts.",
    ),
    seldom(
        "heater",
        "A heater: of what?",
        Takes::Words("seat"),
        "It draws in step with the voltage.",
    ),
    seldom(
        "electronics",
        "Electronics: which?",
        Takes::Words("radio"),
        "It draws more when the voltage falls, and stops below its lowest.",
    ),
    seldom(
        "socket",
        "A socket: which?",
        Takes::Words("USB"),
        "Whatever is plugged in, up to what it is rated for.",
    ),
    always(
        "rated",
        "What is printed on it?",
        Takes::Amount("55 W"),
        "Watts or amperes, as the label has it. Everything is sized by it.",
    ),
    always(
        "place",
        "Where is it?",
        Takes::Named(Of::Place),
        "The wire ends there.",
    ),
    often(
        "count",
        "How many of it?",
        Takes::Whole(1, 40),
        "Alike, at the same place, switched together.",
    ),
    often(
        "unplug",
        "Does it come with a plug, or is it to be unplugged?",
        Takes::YesNo(false),
        "Then a connector goes there; else it is joined for good.",
    ),
    often(
        "at",
        "At which voltage is that?",
        Takes::Amount("13.2 V"),
        "If the label says; else 13.5 V is assumed at a 12 V system (27 V at 24 V), as vehicle bulbs are rated, and 12 V for heaters and motors rated in watts.",
    ),
    often(
        "start",
        "What does it draw when it starts?",
        Takes::Amount("40 A"),
        "A motor’s stall current; else an assumed multiple is taken. The fuse must bear it for a moment.",
    ),
    often(
        "lowest",
        "Down to which voltage does it work?",
        Takes::Amount("10.5 V"),
        "Electronics say so on the label or in the leaflet.",
    ),
    often(
        "duty",
        "Does it switch itself on and off?",
        Takes::Table(DUTY),
        "A fridge runs a part of the time: the battery and the wire’s heat go by it.",
    ),
    seldom(
        "highest",
        "Up to which voltage?",
        Takes::Amount("15 V"),
        "A cold battery is charged high.",
    ),
    seldom(
        "name",
        "What do you call this one?",
        Takes::Words("left lamp"),
        "Where a circuit has several.",
    ),
    seldom(
        "tail",
        "How long is its own lead?",
        Takes::Amount("300 mm"),
        "What it was sold with.",
    ),
    seldom(
        "drop",
        "How much may be lost on the way to this one?",
        Takes::Amount("5 %"),
        "If it differs from its circuit.",
    ),
    seldom(
        "earth",
        "Where does this one return?",
        Takes::Named(Of::Earth),
        "If it differs from its circuit.",
    ),
    seldom(
        "class",
        "Which class of voltage does it bear?",
        Takes::Stocked("class"),
        "By ISO 16750-2, if its leaflet says so.",
    ),
    seldom(
        "hazard",
        "Does it hurt if it runs unasked?",
        Takes::YesNo(false),
        "A winch, a pump of fuel: what would start it by one fault then weighs more.",
    ),
];
