//! A relay that pulls in cold, and may not again once its coil is warm.

use super::relay_fails::once_each;
use super::{About, lasting};
use crate::answers::Answers;
use crate::design::Design;
use crate::network::coil_kelvin;
use finding::{Finding, Weight};
use physics::coil::pull_in_volts;
use physics::conductor::T20;
use quantity::{Quantity, figures};

pub(super) const ABOUT: About = About {
    id: "relay-hot",
    weight: Weight::Mend,
    asks: "Does every relay pull in again with its coil still hot?",
    source: "makers' application notes (read): pull-in current is constant, so its voltage rises with the coil's resistance; once on it is 40–60 K warmer, here 52 K",
    find,
};

fn find(d: &Design, answers: &Answers) -> Vec<Finding> {
    let mut found = Vec::new();
    for s in lasting(answers) {
        for relay in d.asked(&s.state) {
            let p = d.loom.part(relay);
            let Some(kind) = d.relay(relay) else {
                continue;
            };
            let warm = coil_kelvin(d, s.state.supply, p.place, true);
            let needs = pull_in_volts(kind.pull_in.si(), T20, warm);
            let gets = s.settled.at(p.pins[2]) - s.settled.at(p.pins[3]);
            if !s.settled.energised[relay.0 as usize] || gets >= needs {
                continue;
            }
            found.push(ABOUT.at(
                [p.name.clone()],
                format!(
                    "{} ({}) holds, but switched off and on again while hot it needs {} V and gets {} V (“{}”)",
                    p.name,
                    p.label,
                    figures(needs, 4),
                    figures(gets, 4),
                    s.state.name
                ),
                "a cooler place for the relay, or a coil that pulls in at less",
            ));
        }
    }
    once_each(found)
}
