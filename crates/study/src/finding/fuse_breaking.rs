//! A fuse that can't break what the battery pushes.

use super::About;
use crate::answers::Answers;
use crate::design::Design;
use crate::fuse;
use finding::{Finding, Weight};
use quantity::{Quantity, amperes};

pub(super) const ABOUT: About = About {
    id: "fuse-breaking",
    weight: Weight::Mend,
    asks: "Can every fuse break what the battery can push through it?",
    source: "breaking capacity of the class against the battery's short-circuit current",
    find,
};

fn find(d: &Design, answers: &Answers) -> Vec<Finding> {
    let mut found = Vec::new();
    for f in &answers.fuses {
        let Some((kind, _)) = d.fuse(f.part) else { continue };
        let breaks = fuse::prospective(d, f.part);
        if kind.breaking.si() < breaks * (1.0 - 1e-9) {
            let p = d.loom.part(f.part);
            let mut finding = ABOUT.at(
                [p.name.clone()],
                format!(
                    "{} ({}) can break {}, and up to {} may flow at a short behind it",
                    p.name,
                    kind.name,
                    kind.breaking.show(),
                    amperes(breaks).show()
                ),
                "a class with a higher breaking capacity nearer the battery, or more wire before this one",
            );
            finding.source = fuse::breaking_source(d);
            found.push(finding);
        }
    }
    found
}
