//! At idle the alternator gives less than is drawn, and the battery makes up the rest.

use super::{About, kept_for_spares, short};
use crate::answers::Answers;
use crate::design::Design;
use finding::{Finding, Weight};
use plan::SupplyState;
use quantity::Quantity;
use quantity::{amperes, figures};

pub(super) const ABOUT: About = About {
    id: "idling-short",
    weight: Weight::Note,
    asks: "Does the hot alternator carry everything at idle?",
    source: "the plan's `idling`, or 0.48 of the rating (makers' engine manual, read), and 0.67 of that when hot",
    find,
};

fn find(d: &Design, answers: &Answers) -> Vec<Finding> {
    let Some(gives) = d.supply.alternator_amps(SupplyState::Idling) else {
        return Vec::new();
    };
    let told = short(d, answers, SupplyState::Idling).map(|(s, volts)| {
        ABOUT.at(
            [d.loom.parts[0].name.clone()],
            format!(
                "in “{}” more is drawn{} than the {} that the hot alternator gives at idle: the posts are at {} V, and the battery runs down",
                s.state.name,
                kept_for_spares(d),
                amperes(gives).show(),
                figures(volts, 3)
            ),
            "fewer things on while standing with the engine running, or a faster idle; `spurline supply` says for how long",
        )
    });
    told.into_iter().collect()
}
