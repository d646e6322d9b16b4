//! An earth on paint or on a panel that hangs by its hinges.

use super::About;
use crate::answers::Answers;
use crate::design::Design;
use finding::{Finding, Weight};
use loom::PartKind;
use plan::{EarthReturn, Surface};

pub(super) const ABOUT: About = About {
    id: "poor-earth",
    weight: Weight::Mend,
    asks: "Is every body earth on bright metal of the body itself?",
    source: "common practice, no source: earths fail first, and hinges are no conductor",
    find,
};

fn find(d: &Design, _: &Answers) -> Vec<Finding> {
    let mut found = Vec::new();
    for p in &d.loom.parts {
        let PartKind::Earth(e) = &p.kind else {
            continue;
        };
        if e.to != EarthReturn::Body {
            continue;
        }
        let (what, mend) = match e.surface {
            Surface::Bare => continue,
            Surface::Painted => (
                "stands on paint",
                "clean to bright metal, bolt with a toothed washer, then seal",
            ),
            Surface::Hinged => (
                "is on a hinged panel: its current goes through the hinge",
                "run the earth to the body itself, or a strap across the hinge",
            ),
        };
        found.push(ABOUT.at(
            [p.name.clone()],
            format!("{} ({}) {what}", p.name, p.label),
            mend,
        ));
    }
    found
}
