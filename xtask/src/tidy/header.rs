//! Every source opens with `//!`: its job in a sentence, what it takes and what it gives.

use super::Violation;
use super::house::House;

pub(super) fn check(house: &House) -> Vec<Violation> {
    let bare = house.sources.iter().filter(|s| !opens_well(&s.text));
    let mend = "open it with //! and its job in a sentence: what it takes, what it gives";
    bare.map(|s| Violation::new(&s.path, 1, "the file does not say what it is for", mend))
        .collect()
}

fn opens_well(text: &str) -> bool {
    let first = text
        .lines()
        .find(|l| !l.trim().is_empty())
        .unwrap_or_default();
    first
        .strip_prefix("//!")
        .is_some_and(|says| !says.trim().is_empty())
}
