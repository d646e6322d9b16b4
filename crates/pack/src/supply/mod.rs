//! What the supply answers, in a person's words: how long things run with the engine off, how long the
//! vehicle may stand, what the alternator leaves, a day of use. Each section begins with its answer.

mod charge;
mod day;
mod reserve;
mod run;

pub use day::day_says;

use crate::content::{Block, Content, Section};
use crate::report::{self, Subject};
use crate::tables;
use sheet::Sheet;
use study::SupplyAnswers;

/// What a study of the supply does not look at.
const NOT_LOOKED_AT: &str = "Not looked at: how such use ages the battery, an alternator whose belt slips, two batteries that \
share a charger, and whatever the plan does not say that it draws.";

/// The whole of it, with the chart of the day if there is one.
pub fn supply(s: &Subject, a: &SupplyAnswers, chart: Option<&Sheet>) -> Content {
    let assumed = tables::assumed(&a.assumptions);
    let mut sections = vec![
        run::endurance(s, a),
        run::parked(a),
        charge::balance(a),
        charge::recharge(a),
        day::day(s, a, chart),
        reserve::reserve(a),
        Section {
            id: "assumed",
            title: "Assumed, and how to set it".into(),
            blocks: vec![Block::Table(assumed), Block::Text(NOT_LOOKED_AT.into())],
        },
    ];
    sections.push(report::cautions());
    s.content(Some("its supply"), sections)
}

/// Whether an engine is started from this battery.
fn starts_engine(a: &SupplyAnswers) -> bool {
    a.reserve.cranking_volts.is_some()
}
