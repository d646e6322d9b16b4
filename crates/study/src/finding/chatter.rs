//! A relay or a cut-out that never comes to rest.

use super::About;
use crate::answers::Answers;
use crate::cutouts::Unrest;
use crate::design::Design;
use crate::relays::Flip;
use finding::{Finding, Weight};
use loom::PartKind;
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
    for s in &answers.states {
        if s.settled.chatter.is_empty() {
            continue;
        }
        let parts = s.settled.chattering();
        let names: Vec<String> = parts.iter().map(|p| d.loom.part(*p).name.clone()).collect();
        if found.iter().any(|f| f.names() == names) {
            continue;
        }
        let cutout = parts
            .iter()
            .any(|p| matches!(d.loom.part(*p).kind, PartKind::Cutout(_)));
        let mend = match cutout {
            true => CUTOUT_MEND,
            false => "supply the coil from before the contact, or from a feed of its own",
        };
        let says = format!(
            "{} in “{}”, round and round",
            round(d, &s.settled.chatter),
            s.state.name
        );
        found.push(ABOUT.at(names, says, mend));
    }
    for r in &answers.restless {
        let names = [d.loom.part(r.part).name.clone()];
        if found.iter().any(|f| f.names().contains(&names[0])) {
            continue;
        }
        let (when, mend) = match r.when {
            Unrest::Charge(c) => (
                format!("with the battery at {} %", figures(c * 100.0, 3)),
                CUTOUT_MEND,
            ),
            Unrest::Lost(lost) => (
                lost.says(d.loom),
                "give the coil an earth and a supply that nothing else shares",
            ),
        };
        let says = format!(
            "{} in “{}” {when}, round and round",
            round(d, &r.round),
            r.state
        );
        let mut f = ABOUT.at(names, says, mend);
        if matches!(r.when, Unrest::Lost(_)) {
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
