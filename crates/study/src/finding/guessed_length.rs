//! Stretches whose length nobody has measured yet.

use super::About;
use crate::answers::Answers;
use crate::design::Design;
use finding::{Finding, Weight, joined};

pub(super) const ABOUT: About = About {
    id: "guessed-length",
    weight: Weight::Note,
    asks: "Is every stretch measured?",
    source: "the plan’s own word: guessed = true",
    find,
};

fn find(d: &Design, _: &Answers) -> Vec<Finding> {
    let guessed = d.loom.stretches.iter().filter(|s| s.guessed);
    let ends: Vec<[String; 2]> = guessed
        .map(|s| s.ends.map(|e| d.loom.place(e).name.clone()))
        .collect();
    if ends.is_empty() {
        return Vec::new();
    }
    let told: Vec<String> = ends.iter().map(|[a, b]| format!("{a} to {b}")).collect();
    let told: Vec<&str> = told.iter().map(String::as_str).collect();
    let (is, each) = match told.len() {
        1 => ("the length of one stretch is a guess", "it"),
        _ => ("the lengths of some stretches are guesses", "each"),
    };
    let mut names: Vec<String> = ends.into_iter().flatten().collect();
    names.sort();
    names.dedup();
    vec![ABOUT.at(
        names,
        format!("{is}: {}", joined(&told)),
        format!(
            "measure {each} with a string before anything is bought or cut, and take guessed out"
        ),
    )]
}
