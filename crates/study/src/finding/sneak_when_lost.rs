//! Something comes on that nobody asked for, once one earth, wire or connector is lost.

use super::About;
use super::sneak_path::tale;
use crate::answers::Answers;
use crate::design::Design;
use crate::lost::Lost;
use crate::sneak::Sneak;
use finding::{Finding, Weight};
use loom::PartKind;

pub(super) const ABOUT: About = About {
    id: "sneak-when-lost",
    weight: Weight::Mend,
    asks: "With any one earth, wire or connector lost, is still only that on which is asked for?",
    source: "every state solved again with each of them lost; a stop where what comes on is a hazard",
    find,
};

fn find(d: &Design, answers: &Answers) -> Vec<Finding> {
    let mut found: Vec<Finding> = Vec::new();
    let mut told = Vec::new();
    for s in answers.sneaks.iter().filter(|s| s.lost != Lost::Nothing) {
        let names = [
            s.lost.name(d.loom).to_owned(),
            d.loom.part(s.on).name.clone(),
        ];
        // The same lamp by another wire of the same way is no news.
        let kind = |l: Lost| std::mem::discriminant(&l);
        let known = told
            .iter()
            .any(|(on, lost)| *on == s.on && *lost == kind(s.lost));
        if known {
            continue;
        }
        let mut f = ABOUT.at(names, tale(d, answers, s), mend(d, s));
        if matches!(&d.loom.part(s.on).kind, PartKind::Load(l) if l.hazard) {
            f.weight = Weight::Stop;
        }
        if f.weight == Weight::Mend && of_its_condition(d, s) {
            f.weight = Weight::Note;
        }
        found.push(f);
        told.push((s.on, std::mem::discriminant(&s.lost)));
    }
    found
}

/// Whether what was lost is the wire of a condition that keeps it off: it fails on, as such a condition does.
fn of_its_condition(d: &Design, s: &Sneak) -> bool {
    let Some(c) = d.loom.part(s.on).circuit else {
        return false;
    };
    matches!(s.lost, Lost::Wire(w) if d.loom.wire(w).circuit == Some(c))
        && !d.loom.circuits[c].unless.is_empty()
}

fn mend(d: &Design, s: &Sneak) -> String {
    let circuit = d.loom.part(s.on).circuit.map(|c| &d.loom.circuits[c]);
    match s.lost {
        Lost::Wire(w) if circuit.is_some_and(|c| !c.unless.is_empty()) => format!(
            "a break of {} takes away what keeps it off: guard that wire well, or turn the condition round with “only” so that a break turns it off",
            d.loom.wire(w).name
        ),
        Lost::Earth(p) => format!(
            "earth the relay’s coil apart from the loads at {}, and that earth well",
            d.loom.part(p).name
        ),
        Lost::Connector(p) => format!(
            "take the earths that pass {} to a point of their own, or through another connector",
            d.loom.part(p).name
        ),
        _ => "give each circuit its own earth wire".to_owned(),
    }
}
