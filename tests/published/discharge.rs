//! How long a battery lasts: Peukert (42) in both forms, the parked drain (44): cases B01, B08, B09.

use super::case::Case;
use super::ledger::Run;
use super::reference::{Look, reference};
use super::tolerance::Tolerance::{Absolute, Relative};
use super::tolerance::near;
use physics::discharge::{
    exponent_of_two_tests, hours_peukert_capacity, hours_rated, peukert_capacity, rate,
};

pub(crate) const RUNS: &[Run] = &[
    Run {
        ids: &["B01"],
        check: rated_rate,
    },
    Run {
        ids: &["B08"],
        check: parked,
    },
    Run {
        ids: &["B09"],
        check: two_tests,
    },
];

fn rated_rate(c: &mut Case) {
    let (capacity, hours, k) = (c.num("C_Ah"), c.num("H_h"), c.num("k"));
    c.near("t_h", hours_rated(capacity, hours, k, c.num("I_A")));
    let cp = peukert_capacity(capacity, hours, k);
    c.near("t_h", hours_peukert_capacity(cp, k, c.num("I_A")));
    c.near("t_h", 1.0 / rate(capacity, hours, k, c.num("I_A")));
}

/// Days that a part of the charge lasts at a drain far below the rated current.
fn days(milliamps: f64, amp_hours: f64) -> f64 {
    1.0 / rate(amp_hours, 20.0, 1.25, milliamps * 1e-3) / 24.0
}

fn parked(c: &mut Case) {
    c.near("days", days(c.num("mA"), c.num("Ah")));
}

fn two_tests(c: &mut Case) {
    let reserve_h = c.num("t1_min") / 60.0;
    let ours = exponent_of_two_tests(c.num("I1_A"), reserve_h, c.num("I2_A"), c.num("t2_h"));
    c.near("n", ours);
}

#[test]
fn worked_examples() {
    let table = reference!("protection/42_battery_peukert.toml");
    let of = |form: &str| {
        let row = table
            .rows("worked")
            .iter()
            .find(|r| r.word("form").starts_with(form));
        row.unwrap_or_else(|| panic!("no example of “{form}”"))
    };
    let row = of("rated-rate form");
    let ours = hours_rated(row.num("C"), row.num("H"), row.num("k"), row.num("I"));
    near("rated rate", ours, row.num("t_h"), Relative(0.001));
    // “Around 7.5 h”, at twice the current that the label's 20 hours are for.
    let row = of("observed");
    let rated = row.num("C") / row.num("H");
    let k = exponent_of_two_tests(row.num("I"), row.num("t_h"), rated, row.num("H"));
    near("observed", k, row.num("implied_k"), Absolute(5e-4));
}

/// A published example puts the label's ampere-hours in where the capacity at 1 A belongs. We must get
/// its figure by its mistake, and the right one without.
#[test]
fn the_label_is_not_the_capacity_at_one_ampere() {
    let table = reference!("protection/42_battery_peukert.toml");
    let row = table
        .rows("worked")
        .iter()
        .find(|r| r.word("form").starts_with("Peukert-capacity"));
    let row = row.unwrap_or_else(|| panic!("no such example"));
    let (label, k, amps) = (row.num("C"), row.num("k"), row.num("I"));
    let mistaken = hours_peukert_capacity(label, k, amps);
    near("mistaken", mistaken, row.num("t_h"), Absolute(0.05));
    let right = hours_rated(label, 20.0, k, amps);
    near("right", right, 20.0, Relative(1e-9));
    let cp = peukert_capacity(label, 20.0, k);
    near(
        "both forms",
        hours_peukert_capacity(cp, k, amps),
        right,
        Relative(1e-9),
    );
}

#[test]
fn days_to_a_start_that_fails() {
    let table = reference!("protection/44_quiescent.toml");
    let row = table.at("time_to_no_start");
    for (key, milliamps) in [("days_at_50mA", 50.0), ("days_at_35mA", 35.0)] {
        for (amp_hours, published) in row.nums("Ah_available").into_iter().zip(row.nums(key)) {
            near(key, days(milliamps, amp_hours), published, Absolute(0.05));
        }
    }
}
