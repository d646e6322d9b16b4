//! A fuse that lets through more than its wire bears.

use super::{About, broken};
use crate::answers::Answers;
use crate::design::Design;
use finding::{Finding, Weight};

pub(super) const ABOUT: About = About {
    id: "fuse-above-wire",
    weight: Weight::Stop,
    asks: "Does every wire bear what its fuse lets through?",
    source: "fuse gates against the wire's heat and damage curve; 33 CFR 183.455(c) (read)",
    find,
};

fn find(d: &Design, answers: &Answers) -> Vec<Finding> {
    broken(d, answers, "fuse")
        .map(|(name, v)| {
            let fuse = d.loom.wire_named(name).and_then(|w| d.loom.wire(w).fuse);
            let fuse = fuse.map(|f| d.loom.part(f).name.clone());
            let mut f = ABOUT.at(
                std::iter::once(name.to_owned()).chain(fuse),
                format!("the fuse of {name} is too large for it: {}", v.says),
                "take a smaller fuse, or leave the wire's size out of the plan so that one is chosen that bears it",
            );
            f.source.clone_from(&v.source);
            f
        })
        .collect()
}
