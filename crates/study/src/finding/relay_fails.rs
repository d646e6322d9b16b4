//! A relay that is asked to pull in and does not, or never comes to rest.

use super::About;
use crate::answers::Answers;
use crate::design::Design;
use crate::state::Position;
use finding::{Finding, Weight};
use loom::PartKind;

pub(super) const ABOUT: About = About {
    id: "relay-fails",
    weight: Weight::Stop,
    asks: "Does every relay pull in when asked, with its coil at its own heat, and stay?",
    source: "pull-in and drop-out of the class, at the coil's temperature",
    find,
};

fn find(d: &Design, answers: &Answers) -> Vec<Finding> {
    let mut found = Vec::new();
    for s in &answers.states {
        for relay in &s.settled.chatter {
            let p = d.loom.part(*relay);
            found.push(ABOUT.at(
                [p.name.clone()],
                format!("{} ({}) never comes to rest in “{}”: what it switches takes its coil's voltage away", p.name, p.label, s.state.name),
                "supply the coil from before the contact, or from a feed of its own",
            ));
        }
        for (i, c) in d.loom.circuits.iter().enumerate() {
            let Some(relay) = c.relay.filter(|_| s.state.positions[i] == Position::On) else {
                continue;
            };
            let p = d.loom.part(relay);
            let held = s.settled.energised[relay.0 as usize];
            if held || s.settled.chatter.contains(&relay) || s.settled.failure.is_some() {
                continue;
            }
            let PartKind::Relay(_) = &p.kind else {
                continue;
            };
            let volts = s.settled.at(p.pins[2]) - s.settled.at(p.pins[3]);
            found.push(ABOUT.at(
                [p.name.clone()],
                format!(
                    "{} ({}) does not pull in in “{}”: its coil gets {} V",
                    p.name,
                    p.label,
                    s.state.name,
                    quantity::figures(volts, 3)
                ),
                "a shorter or larger wire to the coil, or a cooler place for the relay",
            ));
        }
    }
    found
}
