//! A relay that lets go, or does not hold, while the engine is cranked.

use super::relay_fails::{cut_out, once_each};
use super::{About, solved};
use crate::answers::Answers;
use crate::design::Design;
use finding::{Finding, Weight};
use plan::SupplyState;
use quantity::figures;

pub(super) const ABOUT: About = About {
    id: "relay-drops",
    weight: Weight::Mend,
    asks: "Does every relay that is asked to hold do so while the engine is cranked on a cold morning?",
    source: "drop-out of the class at the coil's temperature; the battery's resistance at −18 °C from its cranking rating",
    find,
};

fn find(d: &Design, answers: &Answers) -> Vec<Finding> {
    let mut found = Vec::new();
    for s in solved(answers).filter(|s| s.state.supply == SupplyState::Cranking) {
        for relay in d.asked(&s.state) {
            if s.settled.energised[relay.0 as usize]
                || cut_out(d, s, relay)
                || !s.settled.chatter.is_empty()
            {
                continue;
            }
            let p = d.loom.part(relay);
            found.push(ABOUT.at(
                [p.name.clone()],
                format!(
                    "{} ({}) lets go in “{}”: its coil is left with {} V",
                    p.name,
                    p.label,
                    s.state.name,
                    figures(s.settled.across(p.pins[2], p.pins[3]), 3)
                ),
                "a stronger battery, a larger wire to the coil, or unless = [\"a signal of the starter\"] so that it goes off on purpose",
            ));
        }
    }
    once_each(found)
}
