//! What a battery can push into a short (15), and whether the fuses in front of it can break that; what
//! its label says (40): cases B03, B04.

use super::case::Case;
use super::ledger::Run;
use super::reference::{Look, reference};
use super::tolerance::Tolerance::Relative;
use super::tolerance::near;
use crate::walk::Walk;
use physics::battery::{
    Chemistry, amp_hours_of_reserve, internal_ohms, load_test_amps, short_circuit_amps,
};
use physics::discharge::exponent_of_two_tests;
use quantity::Quantity;

pub(crate) const RUNS: &[Run] = &[
    Run {
        ids: &["B03"],
        check: reserve,
    },
    Run {
        ids: &["B04"],
        check: load_test,
    },
];

fn reserve(c: &mut Case) {
    let ours = amp_hours_of_reserve(c.num("RC_min"));
    c.near("Ah_definition", ours);
    c.wider(
        "Ah_quoted",
        ours,
        Relative(0.042),
        "the quoted rule rounds 25 A / 60 min to 0.4",
    );
}

fn load_test(c: &mut Case) {
    let ours: Vec<f64> = c
        .nums("cca")
        .iter()
        .map(|cca| load_test_amps(*cca))
        .collect();
    c.each("load_A", &ours);
}

#[test]
fn interrupting_capacity_by_cranking_rating() {
    let table = reference!("protection/15_battery_fault_aic.toml");
    let limits = study::Limits::default();
    let asked = |cranking: f64| {
        limits
            .breaking
            .iter()
            .find(|b| cranking <= b.cranking_most)
            .map_or(0.0, |b| b.amps)
    };
    for row in table.rows("aic") {
        for key in ["cca_total_min", "cca_total_max"] {
            if row.get_at(key).is_some() {
                near(key, asked(row.num(key)), row.num("aic_A"), Relative(1e-9));
            }
        }
    }
    near("far above", asked(3000.0), 5000.0, Relative(1e-9));
}

#[test]
fn resistance_from_the_cranking_rating() {
    let table = reference!("protection/15_battery_fault_aic.toml");
    let row = table.at("resistance_estimate");
    let volts = row.num("example_Uoc");
    let ohms = |cca: f64| internal_ohms(Chemistry::Flooded, cca, volts, 1.0, 255.15);
    let cold = ohms(row.num("example_cca"));
    near(
        "cold",
        cold * 1e3,
        row.num("example_R_mohm"),
        Relative(1e-9),
    );
    near(
        "short",
        short_circuit_amps(volts, cold),
        row.num("example_Isc_A"),
        Relative(1e-9),
    );
    // 40 prints 9.0 and 6.8 mΩ, with two figures.
    near("600 A", ohms(600.0) * 1e3, 9.0, Relative(0.006));
    near("800 A", ohms(800.0) * 1e3, 6.8, Relative(0.008));
}

/// Load testers are set by a table: half of the cranking rating, whatever the reserve.
#[test]
fn load_test_by_cranking_rating() {
    let table = reference!("protection/40_battery_ratings.toml");
    for row in table.rows("load_test_table") {
        for (cca, amps) in row.nums("cca").into_iter().zip(row.nums("load_test_A")) {
            near("load test", load_test_amps(cca), amps, Relative(1e-9));
        }
    }
}

/// Three rules for ampere-hours from a reserve: the definition, the definition rounded, and the label of
/// the same battery, whose 20 hours lie on Peukert's line with the reserve. (The fourth means a battery
/// run flat beyond its limit, which is no rate.)
#[test]
fn rules_for_the_reserve() {
    let table = reference!("protection/40_battery_ratings.toml");
    for row in table.rows("rc_to_ah") {
        let (minutes, published) = (row.num("example_rc"), row.num("example_Ah"));
        let ours = amp_hours_of_reserve(minutes);
        match row.word("formula") {
            rule if rule.contains("25/60") => near(rule, ours, published, Relative(1e-9)),
            rule if rule.contains("0.4") => near(rule, ours, published, Relative(0.042)),
            rule if rule.contains("20 h") => {
                let k = exponent_of_two_tests(25.0, minutes / 60.0, published / 20.0, 20.0);
                assert!(
                    (1.2..=1.6).contains(&k),
                    "{rule}: exponent {k}, lead has 1.2 to 1.6"
                );
            }
            rule => assert!(rule.contains("complete run-down"), "{rule}"),
        }
    }
}

/// The same box behind a larger battery: the next class of main fuse, or a finding.
#[test]
fn a_larger_battery_asks_for_a_stronger_fuse() {
    let plan = |cranking: &str, kind: &str| {
        let vehicle = include_str!("plans/vehicle.toml").replace("600 A", cranking);
        let fuse = if kind.is_empty() {
            String::new()
        } else {
            format!("fuse = {{ kind = \"{kind}\" }}\n")
        };
        let boxed = "[[box]]\nname = \"box\"\nplace = \"tray\"\nways = 1\nfeed = \"battery\"\n";
        format!(
            "{vehicle}\n{boxed}{fuse}{}",
            include_str!("plans/lamp.toml")
        )
    };
    assert!(Walk::of(&plan("1000 A", "miniature blade")).finds("fuse-breaking"));
    assert!(!Walk::of(&plan("100 A", "miniature blade")).finds("fuse-breaking"));
    let walk = Walk::of(&plan("600 A", ""));
    let main = walk.fuse("F0.1");
    assert!(
        walk.stock().fuses[main.kind].breaking.si() >= 1500.0,
        "a class that breaks 1500 A is chosen by itself"
    );
}
