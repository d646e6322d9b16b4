//! More asked of the supply than it can give: the voltage at the battery's own posts gives way.

use super::{About, kept_for_spares, lasting};
use crate::answers::Answers;
use crate::design::Design;
use finding::{Finding, Weight};
use quantity::figures;

pub(super) const ABOUT: About = About {
    id: "supply-overloaded",
    weight: Weight::Stop,
    asks: "Does the supply hold its voltage with everything on?",
    source: "three quarters of nominal, where equipment begins to give up (from memory)",
    find,
};

fn find(d: &Design, answers: &Answers) -> Vec<Finding> {
    let least = d.limits.value("lowest volts of electronics") * d.nominal();
    let sags = lasting(answers).filter_map(|s| {
        Some((s, s.settled.at(d.loom.parts[0].pins[0]))).filter(|(_, v)| *v < least)
    });
    let worst = sags.min_by(|a, b| a.1.total_cmp(&b.1));
    worst.into_iter().map(|(s, volts)| {
        ABOUT.at(
            [d.loom.parts[0].name.clone()],
            format!(
                "the battery's posts fall to {} V in “{}”: more is asked{} than battery and alternator give",
                figures(volts, 3),
                s.state.name,
                kept_for_spares(d)
            ),
            "check the loads and the vehicle's own draw; a larger battery or alternator, or fewer things on at once",
        )
    })
    .collect()
}
