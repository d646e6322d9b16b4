//! A relay that is asked to pull in and does not, or never comes to rest.

use super::{About, solved};
use crate::answers::Answers;
use crate::design::Design;
use crate::state::State;
use finding::{Finding, Weight};
use loom::PartId;

pub(super) const ABOUT: About = About {
    id: "relay-fails",
    weight: Weight::Stop,
    asks: "Does every relay pull in when asked, with its coil at its own heat, and stay?",
    source: "pull-in and drop-out of the class, at the coil's temperature",
    find,
};

fn find(d: &Design, answers: &Answers) -> Vec<Finding> {
    let mut found: Vec<Finding> = Vec::new();
    for s in solved(answers) {
        let name = &s.state.name;
        for relay in &s.settled.chatter {
            let p = d.loom.part(*relay);
            found.push(ABOUT.at(
                [p.name.clone()],
                format!("{} ({}) never comes to rest in “{name}”: what it switches takes its coil's voltage away", p.name, p.label),
                "supply the coil from before the contact, or from a feed of its own",
            ));
        }
        for relay in asked(d, &s.state) {
            let p = d.loom.part(relay);
            if s.settled.energised[relay.0 as usize] || s.settled.chatter.contains(&relay) {
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

/// Relays that are asked to pull in: those of circuits that are on, and those that hold a condition
/// whose signal is there.
pub(super) fn asked(d: &Design, state: &State) -> Vec<PartId> {
    let mut asked = Vec::new();
    for (i, c) in d.loom.circuits.iter().enumerate() {
        asked.extend(c.relay.filter(|_| state.asks(d.loom, i)));
        let live = |relay: &PartId| {
            let coil = d.loom.part(*relay).pins[2];
            let source = d.loom.before(coil).map(|pin| d.loom.pin(pin).part);
            source.is_some_and(|s| state.signals.contains(&s))
        };
        asked.extend(c.conditions.iter().copied().filter(live));
    }
    asked
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
