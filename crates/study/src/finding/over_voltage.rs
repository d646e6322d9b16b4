//! A load that gets more volts than it bears.

use super::relay_fails::once_each;
use super::{About, solved};
use crate::answers::Answers;
use crate::design::Design;
use finding::{Finding, Weight};
use loom::PartKind;
use quantity::{Quantity, figures};

pub(super) const ABOUT: About = About {
    id: "over-voltage",
    weight: Weight::Mend,
    asks: "Does every load bear the voltage it gets?",
    source: "the plan's `highest` of the load",
    find,
};

fn find(d: &Design, answers: &Answers) -> Vec<Finding> {
    let mut found = Vec::new();
    for s in solved(answers) {
        for load in d.loom.circuits.iter().flat_map(|c| &c.loads) {
            let p = d.loom.part(*load);
            let PartKind::Load(l) = &p.kind else { continue };
            let volts = s.settled.at(p.pins[0]) - s.settled.at(p.pins[1]);
            let Some(highest) = l.highest.filter(|h| volts > h.si()) else {
                continue;
            };
            found.push(ABOUT.at(
                [p.name.clone()],
                format!(
                    "{} ({}) gets {} V in “{}” and bears {}",
                    p.name,
                    p.label,
                    figures(volts, 3),
                    s.state.name,
                    highest.show()
                ),
                "a converter before it, or a load made for this vehicle's voltage",
            ));
        }
    }
    once_each(found)
}
