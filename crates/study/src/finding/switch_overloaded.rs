//! A switch that breaks more than its rating for that kind of load.

use super::{About, overloaded};
use crate::answers::Answers;
use crate::design::Design;
use finding::{Finding, Weight};
use loom::PartKind;
use quantity::{Quantity, amperes};

pub(super) const ABOUT: About = About {
    id: "switch-overloaded",
    weight: Weight::Mend,
    asks: "Is every switch rated for its kind of load?",
    source: "AC 43.13-1B table 11-4 (read): switch rating over current, by kind of load",
    find,
};

fn find(d: &Design, answers: &Answers) -> Vec<Finding> {
    overloaded(d, answers, |k| matches!(k, PartKind::Switch(_)))
        .map(|(part, a)| {
            ABOUT.at(
                [part.name.clone()],
                format!(
                    "{} ({}) breaks {}, and bears {} of this load",
                    part.name,
                    a.class,
                    amperes(a.amps).show(),
                    amperes(a.bears_a).show()
                ),
                "let the switch work a relay: add relay = { place = \"…\" } near the box",
            )
        })
        .collect()
}
