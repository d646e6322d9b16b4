//! Wires of one colour that lie in one bundle or meet at one connector.

use super::About;
use crate::answers::Answers;
use crate::design::Design;
use finding::{Finding, Weight};

pub(super) const ABOUT: About = About {
    id: "same-colour",
    weight: Weight::Note,
    asks: "Are wires that lie in one bundle told apart by their colours?",
    source: "common practice, no source",
    find,
};

/// More pairs than this are counted, not named.
const NAMED: usize = 6;

fn find(d: &Design, _: &Answers) -> Vec<Finding> {
    let pairs = d.loom.alike();
    if pairs.is_empty() {
        return Vec::new();
    }
    let words = |pair: &[loom::WireId; 2]| {
        let [a, b] = pair.map(|w| d.loom.wire(w));
        format!("{} and {} ({})", a.name, b.name, a.colour)
    };
    let named: Vec<String> = pairs.iter().take(NAMED).map(words).collect();
    let more = match pairs.len().saturating_sub(NAMED) {
        0 => String::new(),
        n => format!(" and {n} more pairs"),
    };
    let at = pairs.iter().take(NAMED).flatten();
    let mut at: Vec<String> = at.map(|w| d.loom.wire(*w).name.clone()).collect();
    at.sort();
    at.dedup();
    vec![ABOUT.at(
        at,
        format!(
            "the same colour in one bundle or at one connector: {}{more}",
            named.join(", ")
        ),
        "label both ends of each before it is laid, or set a `colour` in its [wire]",
    )]
}
