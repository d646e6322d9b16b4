//! A circuit that nothing can ever turn on.

use super::About;
use crate::answers::Answers;
use crate::design::Design;
use finding::{Finding, Weight};

pub(super) const ABOUT: About = About {
    id: "never-on",
    weight: Weight::Mend,
    asks: "Is every circuit asked for in some state?",
    source: "every switch position, signal and supply state that was tried",
    find,
};

fn find(d: &Design, answers: &Answers) -> Vec<Finding> {
    let asked = |c: usize| answers.states.iter().any(|s| s.state.asks(d.loom, c));
    let circuits = d.loom.circuits.iter().enumerate();
    let dead = circuits.filter(|(i, _)| !asked(*i));
    dead.map(|(_, c)| {
        ABOUT.at(
            [c.name.clone()],
            format!("{} is never on: no switch position, signal and supply state asks for it together", c.name),
            "see what its “only”, “unless”, “trigger” and “live” say together, and the “when” of their signals",
        )
    })
    .collect()
}
