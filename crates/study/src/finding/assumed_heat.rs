//! Places whose heat is assumed.

use super::About;
use crate::answers::Answers;
use crate::design::Design;
use finding::{Finding, Weight};

pub(super) const ABOUT: About = About {
    id: "assumed-heat",
    weight: Weight::Note,
    asks: "Is the heat of every place known?",
    source: "zone heats in the table of assumed values",
    find,
};

fn find(_: &Design, answers: &Answers) -> Vec<Finding> {
    let heats: Vec<_> = answers
        .assumptions
        .iter()
        .filter(|a| a.what.starts_with("heat at "))
        .collect();
    if heats.is_empty() {
        return Vec::new();
    }
    let place = |what: &str| {
        what.trim_start_matches("heat at ")
            .split(" (")
            .next()
            .unwrap_or("")
            .to_owned()
    };
    let list: Vec<String> = heats
        .iter()
        .map(|a| format!("{} {}", place(&a.what), a.value))
        .collect();
    let names: Vec<String> = heats.iter().map(|a| place(&a.what)).collect();
    vec![ABOUT.at(
        names,
        format!(
            "the heat of {} is assumed: {}",
            if list.len() == 1 {
                "one place"
            } else {
                "several places"
            },
            list.join(", ")
        ),
        "measure on a hot day, and add heat = \"…\" to the place",
    )]
}
