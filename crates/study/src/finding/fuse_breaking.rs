//! A fuse that can't break what the battery pushes.

use super::About;
use crate::answers::Answers;
use crate::design::Design;
use crate::fuse;
use finding::{Finding, Weight};
use loom::{FusePart, PartId, PartKind};
use quantity::{Quantity, amperes};

pub(super) const ABOUT: About = About {
    id: "fuse-breaking",
    weight: Weight::Mend,
    asks: "Can every fuse break what the battery can push through it?",
    source: "breaking capacity of the class against the battery's short-circuit current",
    find,
};

fn find(d: &Design, answers: &Answers) -> Vec<Finding> {
    // The ways of one box share what may flow: they are told together.
    let mut groups: Vec<(PartId, &str, f64, f64, Vec<String>)> = Vec::new();
    for f in &answers.fuses {
        let Some((kind, _)) = d.fuse(f.part) else {
            continue;
        };
        let flows = fuse::prospective(d, f.part);
        if kind.breaking.si() >= flows * (1.0 - 1e-9) {
            continue;
        }
        let p = d.loom.part(f.part);
        let seat = match &p.kind {
            PartKind::Fuse(FusePart {
                way: Some((b, _)), ..
            }) => *b,
            _ => f.part,
        };
        match groups.iter_mut().find(|g| g.0 == seat && g.1 == kind.name) {
            Some(g) => {
                g.3 = g.3.max(flows);
                g.4.push(p.name.clone());
            }
            None => groups.push((
                seat,
                &kind.name,
                kind.breaking.si(),
                flows,
                vec![p.name.clone()],
            )),
        }
    }
    let told = groups.into_iter().map(|(_, class, breaks, flows, names)| {
        let mut finding = ABOUT.at(
            names.clone(),
            format!(
                "{} ({class}) can break {}, and up to {} may flow at a short behind {}",
                names.join(", "),
                amperes(breaks).show(),
                amperes(flows).show(),
                if names.len() == 1 { "it" } else { "them" }
            ),
            "a class with a higher breaking capacity, or more wire between the battery and here",
        );
        finding.source = fuse::breaking_source(d);
        finding
    });
    told.collect()
}
