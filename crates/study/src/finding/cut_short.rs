//! A wire cut by hand shorter than its way.

use super::About;
use crate::answers::Answers;
use crate::design::Design;
use finding::{Finding, Weight};
use quantity::Quantity;

pub(super) const ABOUT: About = About {
    id: "cut-short",
    weight: Weight::Mend,
    asks: "Does every wire reach?",
    source: "the lengths of the plan's stretches",
    find,
};

fn find(d: &Design, _: &Answers) -> Vec<Finding> {
    let short = d
        .loom
        .wires
        .iter()
        .filter(|w| w.set.length && w.cut < w.length);
    short
        .map(|w| {
            ABOUT.at(
                [w.name.clone()],
                format!("{} is cut {} for a way of {}: it does not reach, and its drop and heat are worked out too small", w.name, w.cut.show(), w.length.show()),
                "mend its length, or the stretches that it lies in",
            )
        })
        .collect()
}
