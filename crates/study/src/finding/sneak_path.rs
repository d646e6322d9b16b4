//! Something is on that nobody asked for, with the loom whole.

use super::About;
use crate::answers::Answers;
use crate::design::Design;
use crate::lost::Lost;
use crate::sneak::{Sneak, words};
use finding::{Finding, Weight};
use loom::PartKind;
use quantity::figures;

pub(super) const ABOUT: About = About {
    id: "sneak-path",
    weight: Weight::Stop,
    asks: "Is only that on which is asked for, in every state?",
    source: "every state solved; a load is on above its kind's threshold, a relay once it has pulled in",
    find,
};

fn find(d: &Design, answers: &Answers) -> Vec<Finding> {
    let whole = answers.sneaks.iter().filter(|s| s.lost == Lost::Nothing);
    let mut found: Vec<Finding> = Vec::new();
    for s in whole {
        let name = d.loom.part(s.on).name.clone();
        if !found.iter().any(|f| f.names()[0] == name) {
            found.push(ABOUT.at(
                [name],
                tale(d, answers, s),
                "give each circuit its own way to earth and its own supply for the coil",
            ));
        }
    }
    found
}

/// What is on, in which state, and by what path.
pub(super) fn tale(d: &Design, answers: &Answers, s: &Sneak) -> String {
    let p = d.loom.part(s.on);
    let state = &answers.states[s.state].state.name;
    let lost = match s.lost {
        Lost::Nothing => String::new(),
        lost => format!(" {}", lost.says(d.loom)),
    };
    let what = match &p.kind {
        PartKind::Signal(_) => format!("what the vehicle has on the signal “{}”", p.label),
        PartKind::Feed(_) => format!("what the vehicle has on the ignition tap “{}”", p.label),
        _ => format!("{} ({})", p.name, p.label),
    };
    let path = words(d.loom, &s.path);
    let how = match s.relays.first() {
        Some(r) => format!(
            "{} pulls in on {} V: current flows {path}",
            d.loom.part(r.relay).name,
            figures(r.volts, 3)
        ),
        None => format!("current flows {path}"),
    };
    format!(
        "{what} is on in “{state}”{lost} though nothing asks for it, at {} V and {} A: {how}",
        figures(s.volts, 3),
        figures(s.amps.abs(), 3)
    )
}
