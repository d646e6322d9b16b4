//! A switch, a relay or a cut-out where water gets: stock has none that keeps it out.

use super::About;
use crate::answers::Answers;
use crate::design::Design;
use finding::{Finding, Weight, joined};
use loom::{Part, PartKind};

pub(super) const ABOUT: About = About {
    id: "wet-part",
    weight: Weight::Note,
    asks: "Does any switch, relay or cut-out stand where water gets?",
    source: "common practice, no source",
    find,
};

fn find(d: &Design, _: &Answers) -> Vec<Finding> {
    let kind = |p: &&Part| {
        matches!(
            p.kind,
            PartKind::Switch(_) | PartKind::Relay(_) | PartKind::Cutout(_)
        )
    };
    let wet = d.loom.parts.iter().filter(kind);
    let wet = wet.filter(|p| d.loom.place(p.place).wet);
    let names: Vec<String> = wet.map(|p| p.name.clone()).collect();
    if names.is_empty() {
        return Vec::new();
    }
    let told: Vec<&str> = names.iter().map(String::as_str).collect();
    let says = format!(
        "{} stand{} where water gets, and no switch, relay or cut-out in stock keeps it out",
        joined(&told),
        if told.len() == 1 { "s" } else { "" }
    );
    vec![ABOUT.at(
        names,
        says,
        "look for sealed ones, put them under a lid with their tabs downwards, or give the place wet = false if it is dry",
    )]
}
