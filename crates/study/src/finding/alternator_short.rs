//! The battery feeds the vehicle although the engine runs.

use super::{About, kept_for_spares, short};
use crate::answers::Answers;
use crate::design::Design;
use finding::{Finding, Weight};
use plan::SupplyState;
use quantity::{Quantity, figures};

pub(super) const ABOUT: About = About {
    id: "alternator-short",
    weight: Weight::Mend,
    asks: "Does the alternator carry everything that can be on, so that the battery charges?",
    source: "the plan's alternator against the vehicle's draw and everything added",
    find,
};

fn find(d: &Design, answers: &Answers) -> Vec<Finding> {
    let Some(gives) = d.supply.alternator_amps(SupplyState::Driving) else {
        return vec![none(d)];
    };
    let told = short(d, answers, SupplyState::Driving).map(|(s, volts)| {
        ABOUT.at(
            [d.loom.parts[0].name.clone()],
            format!(
                "in “{}” more is drawn{} than the {} that the hot alternator gives: the posts are at {} V, and the battery runs down while driving",
                s.state.name,
                kept_for_spares(d),
                quantity::amperes(gives).show(),
                figures(volts, 3)
            ),
            "fewer things on at once, or a larger alternator",
        )
    });
    told.into_iter().collect()
}

/// A plan without an alternator is for a battery that nothing charges.
fn none(d: &Design) -> Finding {
    let mut f = ABOUT.at(
        [d.loom.parts[0].name.clone()],
        "the plan has no alternator: “driving” is worked out from the battery alone".to_owned(),
        "add alternator = { rated = \"…\" } to [supply] if one charges this battery",
    );
    f.weight = Weight::Note;
    f
}
