//! A network that could not be solved.

use super::About;
use crate::answers::Answers;
use crate::design::Design;
use finding::{Finding, Weight};

pub(super) const ABOUT: About = About {
    id: "not-solved",
    weight: Weight::Stop,
    asks: "Could every state be solved?",
    source: "Kirchhoff's current law at every node to one part in 10⁹",
    find,
};

fn find(_: &Design, answers: &Answers) -> Vec<Finding> {
    let failed = answers
        .states
        .iter()
        .filter_map(|s| Some((s, s.settled.failure.as_ref()?)));
    failed
        .map(|(s, why)| {
            ABOUT.at(
                [s.state.name.clone()],
                format!("“{}” has no steady answer: {why}; its currents and temperatures below are not to be used", s.state.name),
                "a load may ask for more power than its wires can pass: check its rating, its length and the wire sizes set by hand",
            )
        })
        .collect()
}
