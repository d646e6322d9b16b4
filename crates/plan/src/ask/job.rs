//! `[job]`.

use super::{Ask, Takes, always, often, seldom, words};
use crate::{Aim, Colours, Outline, Rules, WireFamily};

pub(super) const ASKS: &[Ask] = &[
    always(
        "title",
        "What do you call this work?",
        Takes::Words("Rack lamps and pump"),
        "It heads every page and drawing, so that whoever opens the loom in five years knows what it was for.",
    ),
    often(
        "vehicle",
        "Which vehicle is it for?",
        Takes::Words("two-seat farm utility"),
        "In your words; it stands beside the title. Nothing is looked up by it.",
    ),
    often(
        "outline",
        "What shape is it?",
        Takes::One(|| words(&Outline::WORDS)),
        "The outline that the places are drawn on. No figure follows from it.",
    ),
    seldom(
        "owner",
        "Whom does the drawing belong to?",
        Takes::Words("Lower Orchard"),
        "It stands in the title block of every drawing.",
    ),
    often(
        "insulation",
        "Which insulation?",
        Takes::Stocked("insulation"),
        "How hot the wire may get. PVC bears the cabin; an engine bay asks for more, such as cross-linked. “any” tries each and takes the best.",
    ),
    often(
        "wire",
        "Which kind of wire can you buy?",
        Takes::One(|| words(&WireFamily::WORDS)),
        "Wire of the same name differs: SAE sizes hold less copper than full AWG, metric sizes are others again.",
    ),
    often(
        "drop",
        "How much voltage may be lost on the way?",
        Takes::Amount("3 %"),
        "3 % is common practice for accessories. A lamp at less voltage gives less light; what minds little may have more and thinner wire.",
    ),
    seldom(
        "rules",
        "Which table of currents binds?",
        Takes::One(|| words(&Rules::WORDS)),
        "Beside the computed heat, a wire carries no more than this table allows. Road vehicles have no single legal table; what your inspector goes by is the one to take.",
    ),
    seldom(
        "aim",
        "What are sizes chosen for?",
        Takes::One(|| words(&Aim::WORDS)),
        "Among sizes that all hold: the cheapest, the lightest, or the fewest kinds to buy.",
    ),
    seldom(
        "sizes",
        "Which sizes are on your shelf?",
        Takes::Listed("2.5 mm²"),
        "Only these are chosen from. Left empty, the usual series of the kind of wire is.",
    ),
    seldom(
        "wall",
        "Which wall has the insulation?",
        Takes::Stocked("wire"),
        "Thin walls save room in a bundle and lose heat a little better; thick ones bear more chafing.",
    ),
    seldom(
        "margin",
        "How far below its class is a wire kept?",
        Takes::Amount("10 K"),
        "Heat is computed, not measured; 10 K is kept below what the insulation is made for unless you say otherwise.",
    ),
    seldom(
        "ends",
        "How much is added at each end?",
        Takes::Amount("100 mm"),
        "To strip, crimp and turn, and to crimp once more when the first one fails.",
    ),
    seldom(
        "drip_loop",
        "How much is added for a drip loop?",
        Takes::Amount("80 mm"),
        "Water runs along a wire: a bow below the end lets it drop off before it gets in.",
    ),
    seldom(
        "spare",
        "How much is added behind a panel?",
        Takes::Amount("150 mm"),
        "So that a switch panel can be drawn forward with its wires on.",
    ),
    seldom(
        "colours",
        "By which habit are wires coloured?",
        Takes::One(|| words(&Colours::WORDS)),
        "On the road brown is earth; on boats black is the negative. Whoever works on it after you goes by that.",
    ),
];
