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
    source: "the plan's `highest` of the load; a regulator at −18 °C: 14.4 ± 0.3 V at 20 °C, 0.1 V more for each 10 K colder (makers' engine manual, read)",
    find,
};

fn find(d: &Design, answers: &Answers) -> Vec<Finding> {
    let mut found = Vec::new();
    // A regulator gives most on a cold morning; the states are worked out in the heat.
    let more = (d.supply.regulated_cold - d.supply.regulated).max(0.0);
    for s in solved(answers) {
        let charging = d.supply.alternator_amps(s.state.supply).is_some();
        for load in d.loom.circuits.iter().flat_map(|c| &c.loads) {
            let p = d.loom.part(*load);
            let PartKind::Load(l) = &p.kind else { continue };
            let volts = s.settled.across(p.pins[0], p.pins[1]);
            let cold = volts + if charging && volts > 0.0 { more } else { 0.0 };
            let Some(highest) = l.highest.filter(|h| cold > h.si()) else {
                continue;
            };
            let when = if volts > highest.si() {
                ""
            } else {
                " on a cold morning"
            };
            found.push(ABOUT.at(
                [p.name.clone()],
                format!(
                    "{} ({}) gets {} V in “{}”{when} and bears {}",
                    p.name,
                    p.label,
                    figures(cold, 3),
                    s.state.name,
                    highest.show()
                ),
                "a converter before it, or a load made for this vehicle's voltage",
            ));
        }
    }
    once_each(found)
}
