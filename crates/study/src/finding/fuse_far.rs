//! A fuse too far along the wire from its source.

use super::About;
use crate::answers::Answers;
use crate::design::Design;
use finding::{Finding, Weight};
use loom::PartKind;
use quantity::Quantity;

pub(super) const ABOUT: About = About {
    id: "fuse-far",
    weight: Weight::Mend,
    asks: "Is every fuse near enough to its source?",
    source: "33 CFR 183.455(b) (read): 7 in along the conductor, 40 in when sheathed all the way",
    find,
};

fn find(d: &Design, _: &Answers) -> Vec<Finding> {
    let mut found = Vec::new();
    for p in &d.loom.parts {
        let PartKind::Fuse(f) = &p.kind else { continue };
        // The lead may have been given a length by hand: that counts.
        let lead = d
            .loom
            .wires
            .iter()
            .find(|w| w.to == p.pins[0])
            .map(|w| w.cut);
        let Some(distance) = f.from_source.and(lead) else {
            continue;
        };
        let row = d.limits.row(if f.sheathed {
            "fuse distance sheathed"
        } else {
            "fuse distance"
        });
        if distance.si() > row.value * (1.0 + 1e-9) {
            let sheathed = if f.sheathed {
                "sheathed"
            } else {
                "not sheathed"
            };
            let mut finding = ABOUT.at(
                [p.name.clone()],
                format!(
                    "{} stands {} from its source, {sheathed}: {} at most",
                    p.name,
                    distance.show(),
                    quantity::metres(row.value).show()
                ),
                if f.sheathed {
                    "move the fuse to the source"
                } else {
                    "move the fuse to the source, or sheath the wire before it all the way (`sheathed = true`)"
                },
            );
            finding.source = row.cite();
            found.push(finding);
        }
    }
    found
}
