//! A wire that hangs on the vehicle's own fuse, of which the plan does not say the rating.

use super::About;
use crate::answers::Answers;
use crate::design::Design;
use finding::{Finding, Weight};
use loom::{PartKind, Role};
use plan::FeedKind;

pub(super) const ABOUT: About = About {
    id: "unknown-fuse",
    weight: Weight::Note,
    asks: "Is the vehicle's own fuse known for every wire that hangs on it?",
    source: "a wire can only be judged against a fuse whose rating is known",
    find,
};

fn find(d: &Design, _: &Answers) -> Vec<Finding> {
    let mut found = Vec::new();
    for p in &d.loom.parts {
        let unsaid = match &p.kind {
            PartKind::Signal(s) => s.fused.is_none(),
            PartKind::Feed(f) => f.fused.is_none() && f.kind == FeedKind::IgnitionTap,
            _ => false,
        };
        if !unsaid {
            continue;
        }
        let hangs = d
            .loom
            .wires
            .iter()
            .filter(|w| w.from == p.pins[0] && w.role != Role::Lead);
        let names: Vec<String> = hangs.map(|w| w.name.clone()).collect();
        if names.is_empty() {
            continue;
        }
        let wires = names.join(", ");
        found.push(ABOUT.at(
            std::iter::once(p.name.clone()).chain(names),
            format!("the plan does not say what fuse the vehicle has before {} ({}): {wires} could not be judged against it", p.name, p.label),
            "look it up in the vehicle's fuse list, and add fused = \"…\"",
        ));
    }
    found
}
