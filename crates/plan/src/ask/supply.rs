//! `[supply]`.

use super::{Ask, Of, Takes, always, often, seldom, words};
use crate::Chemistry;

const BATTERY: &[Ask] = &[
    often(
        "chemistry",
        "What kind of battery?",
        Takes::One(|| words(&Chemistry::WORDS)),
        "Its voltage, its inner resistance and what it bears differ by kind. It stands on the label.",
    ),
    always(
        "capacity",
        "How many ampere-hours?",
        Takes::Amount("70 Ah"),
        "As printed, at 20 hours. How long things run with the engine off follows from it.",
    ),
    often(
        "cranking",
        "Which cold cranking current?",
        Takes::Amount("600 A"),
        "As printed. It says how far the voltage falls while the starter turns, and how much a short circuit draws.",
    ),
    always(
        "place",
        "Where is it?",
        Takes::Named(Of::Place),
        "Every feeder begins there, and the fuse belongs close by.",
    ),
    seldom(
        "health",
        "How much of it is left?",
        Takes::Amount("80 %"),
        "An old battery holds less than is printed on it.",
    ),
    seldom(
        "cranks_at",
        "From which charge does the engine still start?",
        Takes::Amount("60 %"),
        "What may be used with the engine off ends there.",
    ),
    seldom(
        "peukert",
        "Which exponent of Peukert?",
        Takes::Number("1.2"),
        "How much less a battery gives when it is drawn fast; a maker may print it.",
    ),
    seldom(
        "cover",
        "Is its live post covered?",
        Takes::YesNo(true),
        "A spanner across a bare post is the worst short circuit there is.",
    ),
];

const ALTERNATOR: &[Ask] = &[
    always(
        "rated",
        "What can it give?",
        Takes::Amount("90 A"),
        "As stamped on it, warm and fast. What is added must fit beside what the vehicle draws.",
    ),
    often(
        "idling",
        "What does it give while idling?",
        Takes::Amount("45 A"),
        "Much less than rated: lamps at work with the engine idling may be drawing the battery down. About half of its rating (48 %) is assumed if you leave it out.",
    ),
    seldom(
        "volts",
        "What does it charge to?",
        Takes::Amount("14.2 V"),
        "Measured at the battery with the engine fast and little on.",
    ),
];

const VEHICLE: &[Ask] = &[
    often(
        "driving",
        "What does it draw while driving?",
        Takes::Amount("25 A"),
        "Ignition, pumps, lamps of its own: what the alternator has to give before anything of yours. Clamp a meter round the battery lead.",
    ),
    often(
        "parked",
        "What does it draw while parked?",
        Takes::Amount("30 mA"),
        "Its clock and locks empty the battery beside what you add. Measured after half an hour of quiet.",
    ),
    seldom(
        "key_on",
        "With the key on?",
        Takes::Amount("8 A"),
        "Before the engine runs.",
    ),
    seldom(
        "idling",
        "While idling?",
        Takes::Amount("20 A"),
        "As while driving if you leave it out.",
    ),
    seldom(
        "cranking",
        "While the starter turns?",
        Takes::Amount("200 A"),
        "How far the voltage falls then: relays may let go, electronics reset. “0 A” for a battery that starts no engine.",
    ),
];

pub(super) const ASKS: &[Ask] = &[
    always(
        "system",
        "12 volts or 24?",
        Takes::One(|| vec!["12 V", "24 V"]),
        "Cars and vans have 12 V, most lorries 24 V. At half the voltage a lamp draws twice the current.",
    ),
    always(
        "battery",
        "The battery",
        Takes::Table(BATTERY),
        "Where the current comes from when the engine stands.",
    ),
    often(
        "alternator",
        "The alternator",
        Takes::Table(ALTERNATOR),
        "Where it comes from when the engine runs. Leave it out where nothing charges.",
    ),
    often(
        "vehicle",
        "What the vehicle draws by itself",
        Takes::Table(VEHICLE),
        "What is added comes on top of it.",
    ),
];
