//! Live metal that a spanner can touch.

use super::About;
use crate::answers::Answers;
use crate::design::Design;
use finding::{Finding, Weight};
use loom::PartKind;

pub(super) const ABOUT: About = About {
    id: "unshrouded-live",
    weight: Weight::Stop,
    asks: "Is every live joint covered?",
    source: "common practice, no source: a cover or boot on every live post, stud and bus bar",
    find,
};

fn find(d: &Design, _: &Answers) -> Vec<Finding> {
    let open = |k: &PartKind| match k {
        PartKind::Battery { cover } => !cover,
        PartKind::Feed(f) => !f.cover,
        PartKind::Box(b) => !b.cover,
        _ => false,
    };
    let parts = d.loom.parts.iter().filter(|p| open(&p.kind));
    parts
        .map(|p| {
            ABOUT.at(
                [p.name.clone()],
                format!("the live metal of {} ({}) has no cover", p.name, p.label),
                "fit a boot or cover over it, and leave `cover = false` out of the plan",
            )
        })
        .collect()
}
