//! A load that is asked to be on and gets too little voltage to work.

use super::relay_fails::once_each;
use super::{About, lasting};
use crate::answers::Answers;
use crate::design::Design;
use crate::on::weak;
use finding::{Finding, Weight};
use loom::LoomCircuit;

pub(super) const ABOUT: About = About {
    id: "dead-load",
    weight: Weight::Mend,
    asks: "Does every load that is on get the least voltage it works at?",
    source: "the load's `lowest`; without it, three quarters of nominal for electronics (from memory)",
    find,
};

fn find(d: &Design, answers: &Answers) -> Vec<Finding> {
    let mut found = Vec::new();
    for s in lasting(answers) {
        // A relay that stays out has a finding of its own, and a cut-out is out on purpose.
        let stands = |c: &LoomCircuit| {
            let mut both = [c.relay, c.cutout].into_iter().flatten();
            both.all(|p| s.settled.energised[p.0 as usize])
        };
        for w in weak(d, &s.state, &s.settled, stands) {
            let p = d.loom.part(w.load);
            found.push(ABOUT.at([p.name.clone()], w.says(d, &s.state), mend(d, w.lowest)));
        }
    }
    once_each(found)
}

/// No wire helps a load that asks for more than the supply ever gives.
fn mend(d: &Design, lowest: f64) -> &'static str {
    let most = match d.supply.alternator {
        Some(_) => d.supply.regulated,
        None => d.rested_volts(1.0),
    };
    if lowest >= most {
        "a load made for this vehicle's voltage, or a converter before it"
    } else {
        "larger wires on its way, or a load that works at less"
    }
}
