//! A cut-out that carries more than its rating.

use super::{About, lasting};
use crate::answers::Answers;
use crate::design::Design;
use finding::{Finding, Weight};
use loom::PartKind;
use quantity::{Quantity, amperes};

pub(super) const ABOUT: About = About {
    id: "cutout-overloaded",
    weight: Weight::Mend,
    asks: "Does every cut-out carry no more than its rating?",
    source: "the plan's `rating` of the cut-out",
    find,
};

fn find(d: &Design, answers: &Answers) -> Vec<Finding> {
    let mut found = Vec::new();
    for (id, p) in d.loom.each_part() {
        let PartKind::Cutout(c) = &p.kind else {
            continue;
        };
        let amps = lasting(answers).map(|s| s.settled.part_amps[id.0 as usize].abs());
        let most = amps.fold(0.0, f64::max);
        let Some(rating) = c.rating else {
            continue;
        };
        if most > rating.si() {
            found.push(ABOUT.at(
                [p.name.clone()],
                format!(
                    "{} ({}) carries {} of the {} it is rated for",
                    p.name,
                    p.label,
                    amperes(most).show(),
                    rating.show()
                ),
                "a larger cut-out, or let it work a relay that carries the loads",
            ));
        }
    }
    found
}
