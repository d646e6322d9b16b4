//! A load that loses too much voltage on its way.

use super::About;
use crate::answers::Answers;
use crate::design::Design;
use finding::{Finding, Weight};
use quantity::figures;

pub(super) const ABOUT: About = About {
    id: "drop",
    weight: Weight::Mend,
    asks: "Does every load get its voltage, out and back?",
    source: "the plan's limit; where it gives none, 3 % (common practice)",
    find,
};

fn find(d: &Design, answers: &Answers) -> Vec<Finding> {
    let over = answers
        .loads
        .iter()
        .filter(|l| l.drop_percent > l.limit_percent * (1.0 + 1e-6));
    over.map(|l| {
        let p = d.loom.part(l.part);
        ABOUT.at(
            [p.name.clone()],
            format!(
                "{} ({}) loses {} % of its voltage on the way, of {} % allowed; it gets {} V ({})",
                p.name,
                p.label,
                figures(l.drop_percent, 3),
                figures(l.limit_percent, 3),
                figures(l.volts, 3),
                answers.states[l.state].state.name
            ),
            "a larger wire, a shorter way, a nearer earth; or allow more with `drop`",
        )
    })
    .collect()
}
