//! Alternators by speed and heat (45), and the set-point by temperature (43): cases A01, A02, A03.

use super::bench::ZERO;
use super::case::Case;
use super::ledger::Run;
use super::reference::{Look, reference};
use super::tolerance::Tolerance::{Absolute, Relative};
use super::tolerance::near;
use physics::alternator::{Curve, Speed, alternator_rpm, hot_factor, regulated_volts};
use toml::Value;

pub(crate) const RUNS: &[Run] = &[
    Run {
        ids: &["A01"],
        check: hot_output,
    },
    Run {
        ids: &["A02"],
        check: pulleys,
    },
    Run {
        ids: &["A03"],
        check: set_point,
    },
];

fn hot_output(c: &mut Case) {
    let rated: f64 = c
        .word("class")
        .split(' ')
        .next()
        .and_then(|n| n.parse().ok())
        .unwrap_or(f64::NAN);
    let ours: Vec<f64> = c
        .nums("rpm")
        .iter()
        .map(|rpm| rated * Curve::HOT.part(*rpm))
        .collect();
    c.each("hot_A", &ours);
}

fn pulleys(c: &mut Case) {
    let ours = alternator_rpm(c.num("engine_rpm"), c.num("ratio"));
    c.near("alternator_rpm", ours);
}

fn set_point(c: &mut Case) {
    c.holds("20 °C is ours too", c.num("base_C") == 20.0);
    c.holds("and the slope", c.num("slope_V_per_10K") == -0.1);
    let ours = regulated_volts(c.num("base_V"), ZERO + c.num("temp_C"), 1.0);
    c.near("V", ours);
}

/// The machine whose test page was read.
fn read_machine(table: &Value) -> &Value {
    &table.rows("curve")[0]
}

#[test]
fn the_test_page_of_the_50_ampere_machine() {
    let table = reference!("protection/45_alternator.toml");
    let row = read_machine(&table);
    let rpm = row.nums("rpm");
    for (key, curve) in [("hot_A", Curve::HOT), ("cold_A", Curve::COLD)] {
        for (rpm, amps) in rpm.iter().zip(row.nums(key)) {
            near(key, 50.0 * curve.part(*rpm), amps, Relative(1e-9));
        }
    }
    for (engine, rpm) in row.nums("engine_rpm").into_iter().zip(rpm) {
        // Engine speeds are printed to the revolution.
        let ours = alternator_rpm(engine, row.num("pulley_ratio"));
        near("engine speed", ours, rpm, Relative(0.001));
    }
}

#[test]
fn what_heat_leaves_lies_in_the_published_span() {
    let table = reference!("protection/45_alternator.toml");
    let span = table.at("hot_derating").nums("factor");
    let read = read_machine(&table).nums("rpm");
    for (rpm, speed) in read.into_iter().zip([Speed::Idling, Speed::Driving]) {
        let ours = Curve::HOT.part(rpm) / Curve::COLD.part(rpm);
        // The span's ends are printed with two figures.
        assert!(
            (span[0] - 0.005..=span[1]).contains(&ours),
            "{rpm} rpm: {ours}"
        );
        near("by two speeds", hot_factor(speed), ours, Relative(1e-9));
    }
}

#[test]
fn set_point_by_temperature() {
    let table = reference!("protection/43_battery_temperature.toml");
    let row = &table.rows("charge_compensation")[0];
    let (base, celsius) = (row.num("base_V"), row.num("base_C"));
    let at = |warmer: f64| regulated_volts(base, ZERO + celsius + warmer, 1.0);
    near("at its base", at(0.0), base, Relative(1e-9));
    let slope = at(10.0) - at(0.0);
    near("slope", slope, row.num("slope_V_per_10C"), Absolute(1e-9));
}
