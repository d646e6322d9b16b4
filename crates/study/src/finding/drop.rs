//! A load that loses too much voltage on its way.

use super::About;
use crate::answers::Answers;
use crate::design::Design;
use crate::size::{conflict, wire_loss};
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
        let state = &answers.states[l.state];
        let copper = wire_loss(d, &state.settled, l.part) / d.nominal() * 100.0;
        let rest = (l.drop_percent - copper).max(0.0);
        let mend = if rest > l.limit_percent {
            format!("joints, contacts and fuses alone lose {} %: allow more with `drop`, or do without some of them", figures(rest, 2))
        } else {
            conflict::words(d, &state.settled, l.part).unwrap_or_else(|| {
                "a shorter way, a nearer earth; or allow more with `drop`".to_owned()
            })
        };
        ABOUT.at(
            [p.name.clone()],
            format!(
                "{} ({}) loses {} % of its voltage on the way, of {} % allowed: {} % in the wires, {} % in joints, contacts and fuses; it gets {} V ({})",
                p.name,
                p.label,
                figures(l.drop_percent, 3),
                figures(l.limit_percent, 3),
                figures(copper, 2),
                figures(rest, 2),
                figures(l.volts, 3),
                state.state.name
            ),
            mend,
        )
    })
    .collect()
}
