//! More taken from a feed than it can give.

use super::About;
use crate::answers::Answers;
use crate::design::Design;
use finding::{Finding, Weight};
use loom::PartKind;
use quantity::{Quantity, amperes};

pub(super) const ABOUT: About = About {
    id: "feed-overloaded",
    weight: Weight::Mend,
    asks: "Does every feed give what is taken from it?",
    source: "the plan's `gives` and `fused` of the feed",
    find,
};

fn find(d: &Design, answers: &Answers) -> Vec<Finding> {
    let mut found = Vec::new();
    for (id, p) in d.loom.each_part() {
        let PartKind::Feed(f) = &p.kind else { continue };
        let taken = answers
            .states
            .iter()
            .map(|s| s.settled.part_amps[id.0 as usize].abs())
            .fold(0.0, f64::max);
        let limits = [("gives", f.gives), ("is fused at", f.fused)];
        for (word, limit) in limits.into_iter().filter_map(|(w, l)| Some((w, l?))) {
            if taken > limit.si() * (1.0 + 1e-9) {
                found.push(ABOUT.at(
                    [p.name.clone()],
                    format!(
                        "{} is taken from {} ({}), which {word} {}",
                        amperes(taken).show(),
                        p.name,
                        p.label,
                        limit.show()
                    ),
                    "feed some of the circuits from the battery, by a box of their own",
                ));
            }
        }
    }
    found
}
