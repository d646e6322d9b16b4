//! A fuse that may open while its loads start.

use super::About;
use crate::answers::Answers;
use crate::design::Design;
use crate::fuse;
use finding::{Finding, Weight};
use quantity::{Quantity, amperes, figures};

pub(super) const ABOUT: About = About {
    id: "fuse-start",
    weight: Weight::Mend,
    asks: "Does every fuse stand its loads' start?",
    source: "fast edge of the fuse's gates against the loads' starting pulses",
    find,
};

fn find(d: &Design, answers: &Answers) -> Vec<Finding> {
    let sized = answers.states.iter().take(answers.sized);
    let settled: Vec<_> = sized.map(|s| &s.settled).collect();
    let mut found = Vec::new();
    for f in &answers.fuses {
        let Some((kind, rating)) = d.fuse(f.part) else {
            continue;
        };
        let ask = fuse::demand(d, &settled, f.part);
        if !fuse::stands_start(kind, rating.amps.si(), &ask) {
            let amps: f64 = ask.starts.iter().map(|s| s.amps).sum();
            let p = d.loom.part(f.part);
            found.push(ABOUT.at(
                [p.name.clone()],
                format!(
                    "{} ({} A {}) may open while its loads start with {}",
                    p.name,
                    figures(f.rating_a, 3),
                    kind.name,
                    amperes(amps).show()
                ),
                "a slower class of fuse or a larger one with the wire it needs",
            ));
        }
    }
    found
}
