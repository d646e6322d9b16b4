//! A relay contact that carries more than its rating for that kind of load.

use super::{About, overloaded};
use crate::answers::Answers;
use crate::design::Design;
use finding::{Finding, Weight};
use loom::PartKind;
use quantity::{Quantity, amperes};

pub(super) const ABOUT: About = About {
    id: "contact-overloaded",
    weight: Weight::Mend,
    asks: "Does every relay contact stay within its rating for the kind of load and the heat?",
    source: "contact ratings of the class by kind of load, in the stock row",
    find,
};

fn find(d: &Design, answers: &Answers) -> Vec<Finding> {
    overloaded(d, answers, |k| matches!(k, PartKind::Relay(_)))
        .map(|(part, a)| {
            ABOUT.at(
                [part.name.clone()],
                format!(
                    "{} ({}) switches {}, and its contact may carry {} of this load at this heat",
                    part.name,
                    a.class,
                    amperes(a.amps).show(),
                    amperes(a.bears_a).show()
                ),
                "a relay of a larger kind (`kind = \"power\"`), a cooler place, or two relays",
            )
        })
        .collect()
}
