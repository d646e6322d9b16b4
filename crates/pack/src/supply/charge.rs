//! What the alternator leaves, and how long it takes to put back what was drawn.

use crate::content::Align::{Left as L, Right as R};
use crate::content::{Block, Section, Table};
use crate::tables::columns;
use crate::words::{amps, capital, duration, percent};
use plan::SupplyState;
use quantity::figures;
use study::{Balance, Recharge, SupplyAnswers};

/// Less than this is neither left nor missing, A.
const EVEN: f64 = 0.05;

const NO_ALTERNATOR: &str = "The plan says no alternator, so nothing is known of what charges this battery. To have it \
reckoned, add alternator = { rated = \"100 A\" } to [supply].";

const NOTHING_TAKEN: &str =
    "There is nothing to put back: nothing may be taken from this battery with the engine off.";

/// What the alternator leaves.
pub(super) fn balance(a: &SupplyAnswers) -> Section {
    let title = "What the alternator leaves";
    if a.balance.is_empty() {
        return Section::of("alternator", title, Block::Text(NO_ALTERNATOR.into()));
    }
    let says: Vec<String> = a.balance.iter().map(left).collect();
    let rows = a.balance.iter().map(|b| {
        vec![
            b.supply.word().to_owned(),
            figures(b.gives_a, 3),
            figures(b.vehicle_a, 3),
            figures(b.added_a, 3),
            figures(b.left_a, 3),
            figures(b.volts, 3),
        ]
    });
    let table = Table {
        columns: columns(&[
            ("when", L),
            ("gives hot, A", R),
            ("vehicle, A", R),
            ("added, A", R),
            ("left, A", R),
            ("battery, V", R),
        ]),
        rows: rows.collect(),
    };
    Section {
        id: "alternator",
        title: title.into(),
        blocks: vec![Block::Text(says.join(" ")), Block::Table(table)],
    }
}

/// "At idle with everything on 12 A are missing: the battery gives them."
fn left(b: &Balance) -> String {
    let when = match b.supply {
        SupplyState::Idling => "At idle",
        _ => "Driving",
    };
    let much = amps(b.left_a.abs());
    if b.left_a < -EVEN {
        format!("{when} with everything on {much} are missing: the battery gives them.")
    } else if b.left_a > EVEN {
        format!("{when} with everything on {much} are left to charge the battery.")
    } else {
        format!("{when} with everything on nothing is left to charge the battery.")
    }
}

/// How long a drive puts it back.
pub(super) fn recharge(a: &SupplyAnswers) -> Section {
    let title = "Putting it back";
    if a.recharge.is_empty() {
        return Section::of("recharge", title, Block::Text(NO_ALTERNATOR.into()));
    }
    // A drive is what people do to charge a battery: it comes first.
    let says: Vec<String> = match a.recharge.iter().all(|r| r.from >= r.to) {
        true => vec![NOTHING_TAKEN.into()],
        false => a.recharge.iter().rev().map(takes).collect(),
    };
    let mut blocks = vec![Block::Text(says.join(" "))];
    blocks.push(Block::Text(
        "With every switch off. The last few per cent of a charge take hours more.".into(),
    ));
    Section {
        id: "recharge",
        title: title.into(),
        blocks,
    }
}

/// "Driving takes 1 h 20 min from 60 % to 95 %, beginning with 35 A."
fn takes(r: &Recharge) -> String {
    let when = capital(r.supply.word());
    if !r.hours.is_finite() {
        return format!("{when} does not put it back: nothing is left to charge with.");
    }
    format!(
        "{when} takes {} from {} to {}, beginning with {}.",
        duration(r.hours),
        percent(r.from),
        percent(r.to),
        amps(r.amps)
    )
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_is_missing_at_idle_is_said() {
        let b = Balance {
            supply: SupplyState::Idling,
            gives_a: 40.0,
            vehicle_a: 28.0,
            added_a: 24.0,
            left_a: -12.0,
            volts: 12.4,
        };
        assert_eq!(
            left(&b),
            "At idle with everything on 12 A are missing: the battery gives them."
        );
    }

    #[test]
    fn a_charge_that_never_ends_is_said_in_words() {
        let of = |hours| Recharge {
            supply: SupplyState::Driving,
            from: 0.6,
            to: 0.95,
            amps: 35.0,
            hours,
        };
        assert_eq!(
            takes(&of(4.0 / 3.0)),
            "Driving takes 1 h 20 min from 60 % to 95 %, beginning with 35 A."
        );
        assert!(takes(&of(f64::INFINITY)).contains("does not put it back"));
    }
}
