//! A relay that pulls in cold, and may not again once its coil is warm.

use super::relay_fails::once_each;
use super::{About, lasting};
use crate::answers::{Answers, StateAnswer};
use crate::design::Design;
use finding::{Finding, Weight};
use loom::Part;
use physics::coil::{pull_in_volts, warm_kelvin};
use physics::conductor::T20;
use quantity::{Quantity, figures};

pub(super) const ABOUT: About = About {
    id: "relay-hot",
    weight: Weight::Mend,
    asks: "Does every relay pull in again with its coil still hot?",
    source: "makers' application notes (read): pull-in current is constant, so its voltage rises with the coil's resistance; it warms itself by 52 K at its nominal voltage, and by the square of what it gets",
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
            // As hot as the most volts that it gets in any state make it: switched off after a drive.
            let warm = warm_kelvin(d.heat_at(p.place), most_volts(answers, p), d.nominal());
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

/// The most volts that a relay's coil gets in any state that lasts.
fn most_volts(answers: &Answers, relay: &Part) -> f64 {
    let gets = |s: &StateAnswer| s.settled.across(relay.pins[2], relay.pins[3]).abs();
    lasting(answers).map(gets).fold(0.0, f64::max)
}
