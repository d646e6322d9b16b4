//! A relay or a cut-out that never comes to rest.

use super::About;
use crate::amiss::{Beside, Trouble};
use crate::answers::Answers;
use crate::design::Design;
use crate::relays::Flip;
use finding::{Finding, Weight};
use loom::{PartId, PartKind};
use quantity::figures;

const CUTOUT_MEND: &str = "set “opens” and “closes” further apart than the load pulls its own supply down, or a larger wire before it";

pub(super) const ABOUT: About = About {
    id: "chatter",
    weight: Weight::Stop,
    asks: "Does every relay and cut-out come to rest, in every state?",
    source: "each decided by the voltage that it gets, one at a time, until nothing changes or the circle closes",
    find,
};

fn find(d: &Design, answers: &Answers) -> Vec<Finding> {
    let mut found: Vec<Finding> = Vec::new();
    let whole = answers.states.iter().map(|s| {
        let at = format!("“{}”", s.state.name);
        (at, &s.settled.chatter, false)
    });
    let beside = answers.amiss.iter().filter_map(|a| match &a.trouble {
        Trouble::Restless(round) => {
            Some((a.at(d.loom), round, matches!(a.beside, Beside::Lost(_))))
        }
        Trouble::Unsolved(_) => None,
    });
    for (at, flips, lost) in whole.chain(beside) {
        let mut parts: Vec<PartId> = flips.iter().map(|f| f.part).collect();
        parts.sort();
        parts.dedup();
        let names: Vec<String> = parts.iter().map(|p| d.loom.part(*p).name.clone()).collect();
        // Told once: of those that go round together, each by itself is no news.
        let told = |name: &String| found.iter().any(|f| f.names().contains(name));
        if names.iter().all(told) {
            continue;
        }
        let cutout = |p: &PartId| matches!(d.loom.part(*p).kind, PartKind::Cutout(_));
        let mend = match (lost, parts.iter().any(cutout)) {
            (true, _) => "give the coil an earth and a supply that nothing else shares",
            (_, true) => CUTOUT_MEND,
            _ => "supply the coil from before the contact, or from a feed of its own",
        };
        let says = format!("{} in {at}, round and round", round(d, flips));
        let mut f = ABOUT.at(names, says, mend);
        if lost {
            f.weight = Weight::Mend;
        }
        found.push(f);
    }
    found
}

/// The circle: "Q1 lets go at 23.2 V, Q1 comes in again at 24.4 V".
fn round(d: &Design, flips: &[Flip]) -> String {
    let each: Vec<String> = flips
        .iter()
        .map(|f| {
            let p = d.loom.part(f.part);
            let (does, gets) = match (&p.kind, f.on) {
                (PartKind::Cutout(_), true) => ("lets in", "its input at"),
                (PartKind::Cutout(_), false) => ("cuts out", "its input at"),
                (_, true) => ("pulls in", "its coil at"),
                (_, false) => ("lets go", "its coil at"),
            };
            format!(
                "{} ({}) {does}, {gets} {} V",
                p.name,
                p.label,
                figures(f.volts, 3)
            )
        })
        .collect();
    each.join("; then ")
}
