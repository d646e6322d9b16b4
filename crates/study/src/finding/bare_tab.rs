//! A push-on terminal without insulation, live whenever the battery is.

use super::About;
use crate::answers::Answers;
use crate::design::Design;
use finding::{Finding, Weight};
use loom::PartKind;

pub(super) const ABOUT: About = About {
    id: "bare-tab",
    weight: Weight::Stop,
    asks: "Is any bare tab live all the time?",
    source: "common practice, no source: insulated receptacles on everything constantly live",
    find,
};

fn find(d: &Design, _: &Answers) -> Vec<Finding> {
    let bare = |k: &PartKind| match k {
        PartKind::Relay(r) => r.bare,
        PartKind::Switch(s) => s.bare,
        _ => false,
    };
    let mut found = Vec::new();
    for p in d.loom.parts.iter().filter(|p| bare(&p.kind)) {
        let ignition = p
            .circuit
            .is_some_and(|c| d.loom.circuits[c].ignition && d.loom.circuits[c].relay.is_none());
        if !ignition {
            found.push(ABOUT.at(
                [p.name.clone()],
                format!("{} ({}) has bare tabs on a feed that is always live", p.name, p.label),
                "use fully insulated receptacles or a socket, and leave `bare = true` out of the plan",
            ));
        }
    }
    found
}
