//! A relay that is asked to pull in and does not.

use super::{About, lasting};
use crate::answers::{Answers, StateAnswer};
use crate::design::Design;
use finding::{Finding, Weight};
use loom::PartId;

pub(super) const ABOUT: About = About {
    id: "relay-fails",
    weight: Weight::Stop,
    asks: "Does every relay pull in when asked, with its coil at its own heat?",
    source: "pull-in and drop-out of the class, at the coil's temperature",
    find,
};

fn find(d: &Design, answers: &Answers) -> Vec<Finding> {
    let mut found: Vec<Finding> = Vec::new();
    for s in lasting(answers) {
        let name = &s.state.name;
        for relay in d.asked(&s.state) {
            let p = d.loom.part(relay);
            if s.settled.energised[relay.0 as usize] || cut_out(d, s, relay) {
                continue;
            }
            let volts = s.settled.at(p.pins[2]) - s.settled.at(p.pins[3]);
            found.push(ABOUT.at(
                [p.name.clone()],
                format!(
                    "{} ({}) does not pull in in “{name}”: its coil gets {} V",
                    p.name,
                    p.label,
                    quantity::figures(volts, 3)
                ),
                "a shorter or larger wire to the coil, or a cooler place for the relay",
            ));
        }
    }
    once_each(found)
}

/// The first finding about each part: the same fault in another state is no news.
pub(super) fn once_each(found: Vec<Finding>) -> Vec<Finding> {
    let mut told: Vec<Finding> = Vec::new();
    for f in found {
        if !told.iter().any(|t| t.names() == f.names()) {
            told.push(f);
        }
    }
    told
}

/// Whether the circuit of a relay is cut out by its own battery protection: then it is out on purpose.
pub(super) fn cut_out(d: &Design, s: &StateAnswer, relay: PartId) -> bool {
    let circuit = d.loom.part(relay).circuit;
    let cutout = circuit.and_then(|c| d.loom.circuits[c].cutout);
    cutout.is_some_and(|q| !s.settled.energised[q.0 as usize])
}
