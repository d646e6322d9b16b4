//! A fuse that carries more than it may for ever.

use super::About;
use crate::answers::Answers;
use crate::design::Design;
use finding::{Finding, Weight};
use quantity::{Quantity, amperes, figures};

pub(super) const ABOUT: About = About {
    id: "fuse-loaded",
    weight: Weight::Mend,
    asks: "Does every fuse carry no more than it may for ever at its heat?",
    source: "continuous factor and ambient factor of the class, in the stock row",
    find,
};

fn find(d: &Design, answers: &Answers) -> Vec<Finding> {
    let over = answers
        .fuses
        .iter()
        .filter(|f| f.amps > f.bears_a * (1.0 + 1e-6));
    over.map(|f| {
        let p = d.loom.part(f.part);
        ABOUT.at(
            [p.name.clone()],
            format!(
                "{} ({} A) carries {}, and may carry {} for ever at {} °C: it will open on a hot day",
                p.name,
                figures(f.rating_a, 3),
                amperes(f.amps).show(),
                amperes(f.bears_a).show(),
                figures(f.celsius, 3)
            ),
            "a larger fuse with the wire it needs, fewer loads behind it, or a cooler place",
        )
    })
    .collect()
}
