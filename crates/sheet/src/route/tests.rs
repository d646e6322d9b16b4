//! Routes of the examples and of generated plans: no name lies on another or leaves the sheet, every place is named.

use super::*;
use crate::circuit::tests::{MADE, Walked};
use crate::drawing::{Mark, overlaps};

fn faults(walked: &Walked, said: Option<Outline>) -> Vec<String> {
    let page = drawn(&walked.loom, &walked.title, said);
    let inner = border(SIZE_MM.0, SIZE_MM.1);
    // Lines may run under lengths, which stand on white.
    let mut found: Vec<String> = overlaps(&page, inner)
        .into_iter()
        .filter(|o| !o.starts_with("a line runs"))
        .collect();
    for place in &walked.loom.places {
        let named = |m: &Mark| matches!(m, Mark::Words(l) if l.text.starts_with(&format!("{}, ", place.name)));
        if !page.marks.iter().any(named) {
            found.push(format!("{} is not named", place.name));
        }
    }
    found
}

#[test]
fn examples_on_every_shape() {
    for text in [
        include_str!("../../../../examples/farm.toml"),
        include_str!("../../../../examples/camper.toml"),
        include_str!("../../../../examples/lorry.toml"),
    ] {
        let walked = Walked::of(text);
        for (word, outline) in Outline::WORDS {
            assert_eq!(
                faults(&walked, Some(outline)),
                Vec::<String>::new(),
                "{word}"
            );
        }
    }
}

#[test]
fn generated_plans() {
    let told: Vec<String> = MADE
        .iter()
        .enumerate()
        .flat_map(|(seed, w)| {
            faults(w, None)
                .into_iter()
                .map(move |f| format!("plan {seed}: {f}"))
        })
        .collect();
    assert!(told.is_empty(), "{}", told.join("\n"));
}

#[test]
fn words_of_a_vehicle_say_its_shape() {
    assert_eq!(guessed("two-seat farm utility, 12 V"), Outline::PickUp);
    assert_eq!(guessed("18 t recovery lorry, 24 V"), Outline::Lorry);
    assert_eq!(guessed("Long van with a bed"), Outline::Van);
    assert_eq!(guessed("something else"), Outline::Car);
}
