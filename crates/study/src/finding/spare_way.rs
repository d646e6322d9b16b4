//! Spare ways that the feeder knows nothing of.

use super::About;
use crate::answers::Answers;
use crate::design::{Design, ways_used};
use finding::{Finding, Weight};
use loom::PartKind;

pub(super) const ABOUT: About = About {
    id: "spare-way",
    weight: Weight::Note,
    asks: "Is the feeder sized for the ways that are still free?",
    source: "common practice, no source: a spare way gets used",
    find,
};

fn find(d: &Design, _: &Answers) -> Vec<Finding> {
    let mut found = Vec::new();
    for (id, p) in d.loom.each_part() {
        let PartKind::Box(b) = &p.kind else { continue };
        let free = b.ways.saturating_sub(ways_used(d.loom, id));
        if free > 0 && b.spare.is_none() {
            found.push(ABOUT.at(
                [p.name.clone()],
                format!(
                    "{} ({}) has {free} spare {}, and its feeder is sized without",
                    p.name,
                    p.label,
                    if free == 1 { "way" } else { "ways" }
                ),
                "add spare = \"10 A\" to the box, so that the feeder bears that much for each",
            ));
        }
    }
    found
}
