//! What must be left in the battery, and why.

use crate::content::{Block, Section};
use crate::words::{degrees, percent, volts};
use quantity::figures;
use study::{ReserveRule, SupplyAnswers};

/// The charge below which it is not to fall.
pub(super) fn reserve(a: &SupplyAnswers) -> Section {
    let r = &a.reserve;
    let (left, cold) = (percent(r.charge), degrees(a.celsius));
    let says = match r.rule {
        ReserveRule::Said => {
            format!(
                "{left} of its charge must be left: the plan says that the engine still starts there."
            )
        }
        ReserveRule::Starter => format!(
            "{left} of its charge must be left: with less the starter pulls the battery down too far, at {cold}."
        ),
        ReserveRule::Practice => {
            format!("{left} of its charge must be left: with less, engines begin not to start.")
        }
        ReserveRule::Wear => {
            format!("{left} of its charge must be left: going deeper wears the battery out.")
        }
        ReserveRule::Never => format!(
            "All of it must be left, and that is not enough: even full the battery does not hold the starter at {cold}."
        ),
    };
    let mut more = Vec::new();
    if let Some(v) = r.cranking_volts {
        more.push(format!(
            "With the starter turning at that charge it holds {} at its posts.",
            volts(v)
        ));
    }
    more.push(format!(
        "At {cold} a full battery of this age gives {} Ah at its rated current.",
        figures(a.usable_ah, 3)
    ));
    more.push(format!("On whose word: {}.", r.source));
    Section {
        id: "reserve",
        title: "What must be left, and why".into(),
        blocks: vec![Block::Text(says), Block::List(more)],
    }
}
