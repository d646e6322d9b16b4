//! `[[circuit]]`. Its loads are a list of their own.

use super::control::{CUTOUT, ISOLATOR, RELAY, SWITCH};
use super::feed::FUSE;
use super::{Ask, Of, Takes, always, often, seldom};

pub(super) const ASKS: &[Ask] = &[
    always(
        "name",
        "What do you call it?",
        Takes::Words("rack lamps"),
        "It stands on the label at the switch.",
    ),
    often(
        "box",
        "Which fuse box feeds it?",
        Takes::Named(Of::Box),
        "It takes one way there, with a fuse of its own.",
    ),
    often(
        "feed",
        "Or which feed, without a box?",
        Takes::Named(Of::Feed),
        "Then its fuse sits in the wire where it begins.",
    ),
    often(
        "relay",
        "A relay",
        Takes::Table(RELAY),
        "It lets a thin wire and a small switch work a large load: the thick wire stays short, and the dash stays cool.",
    ),
    often(
        "switch",
        "A switch",
        Takes::Table(SWITCH),
        "What turns it on. Without one it is live always or with the ignition, or a signal turns it on.",
    ),
    often(
        "live",
        "Without a switch: when is it live?",
        Takes::One(|| vec!["always", "ignition"]),
        "Always, for what must not stop, such as a fridge; with the ignition, for what must not be forgotten.",
    ),
    always(
        "earth",
        "Where does its current return?",
        Takes::Named(Of::Earth),
        "To bare metal of the body nearby, or by a wire to the battery. A bad earth takes the light, and sends the current where nobody wants it.",
    ),
    often(
        "drop",
        "How much voltage may be lost on the way?",
        Takes::Amount("5 %"),
        "From battery to load and back. Less makes thicker wire.",
    ),
    often(
        "cutout",
        "Battery protection",
        Takes::Table(CUTOUT),
        "It cuts this circuit out before the battery is too low to start the engine.",
    ),
    seldom(
        "trigger",
        "Which signal turns it on?",
        Takes::Named(Of::Signal),
        "Instead of a switch: a lamp that comes on in reverse. Needs a relay.",
    ),
    seldom(
        "only",
        "Only while which signals are there?",
        Takes::AllNamed(Of::Signal),
        "Driving lamps only with main beam, as the law has it in many places. Needs a relay.",
    ),
    seldom(
        "unless",
        "Not while which are there?",
        Takes::AllNamed(Of::Signal),
        "Off while cranking, off in reverse. Needs a relay.",
    ),
    seldom(
        "control",
        "Which ignition tap works the relay’s coil?",
        Takes::Named(Of::Feed),
        "Where the plan has several.",
    ),
    seldom(
        "isolator",
        "An isolator",
        Takes::Table(ISOLATOR),
        "A switch that takes the whole circuit off the battery by hand.",
    ),
    seldom(
        "fuse",
        "Its fuse",
        Takes::Fuse(FUSE),
        "Left out, it is chosen: large enough for what flows, small enough for the wire behind it.",
    ),
    seldom(
        "way",
        "Which way of the box?",
        Takes::Whole(1, 60),
        "Left out, the next that is free.",
    ),
    seldom(
        "number",
        "Which number do its wires bear?",
        Takes::Whole(1, 999),
        "W3.1 is wire 1 of circuit 3. A number that is said stays when circuits come and go.",
    ),
];
