//! A signal of the vehicle that is asked for more than it can give.

use super::About;
use crate::answers::Answers;
use crate::design::Design;
use finding::{Finding, Weight};
use loom::PartKind;
use quantity::{Quantity, amperes};

pub(super) const ABOUT: About = About {
    id: "signal-overloaded",
    weight: Weight::Mend,
    asks: "Is every signal of the vehicle left as good as unloaded?",
    source: "the plan's `gives` of the signal; common practice: monitored lamp feeds give little",
    find,
};

fn find(d: &Design, answers: &Answers) -> Vec<Finding> {
    let mut found = Vec::new();
    for (id, p) in d.loom.each_part() {
        let PartKind::Signal(s) = &p.kind else {
            continue;
        };
        let taken = answers
            .states
            .iter()
            .map(|s| s.settled.part_amps[id.0 as usize].abs())
            .fold(0.0, f64::max);
        match s.gives {
            Some(gives) if taken > gives.si() * (1.0 + 1e-9) => found.push(ABOUT.at(
                [p.name.clone()],
                format!("{} is taken from the signal “{}”, which gives {}", amperes(taken).show(), p.label, gives.show()),
                "a relay with a weaker coil, or an interface that reads the signal without loading it",
            )),
            None if taken > 0.0 => {
                let mut f = ABOUT.at(
                    [p.name.clone()],
                    format!("{} is taken from the signal “{}”, and the plan does not say what it gives", amperes(taken).show(), p.label),
                    "measure or look up what the vehicle allows there, and add gives = \"…\"",
                );
                f.weight = Weight::Note;
                found.push(f);
            }
            _ => {}
        }
    }
    found
}
