//! Electronics that hold their power (33): case E01; and a circuit with an open element: D02.

use super::bench::{in_series, source};
use super::case::Case;
use super::ledger::Run;
use super::reference::{Look, reference};
use super::tolerance::Tolerance::{Absolute, Relative};
use super::tolerance::near;
use physics::network::Law;

pub(crate) const RUNS: &[Run] = &[
    Run {
        ids: &["E01"],
        check: constant_power,
    },
    Run {
        ids: &["D02"],
        check: open_element,
    },
];

fn amps(watts: f64, volts: f64) -> f64 {
    let law = Law::ConstantPower {
        watts,
        lowest_volts: 9.0,
        highest_volts: 32.0,
    };
    in_series(&[source(volts), law]).amps[1]
}

fn constant_power(c: &mut Case) {
    let ours: Vec<f64> = c
        .nums("U")
        .iter()
        .map(|v| amps(c.num("P_in_W"), *v))
        .collect();
    c.each("I_A", &ours);
}

/// In a series circuit the open element has the whole voltage, the good ones none.
fn open_element(c: &mut Case) {
    let good = Law::Resistor { ohms: 10.0 };
    let solved = in_series(&[source(c.num("U")), good, Law::Open]);
    c.near("across_good_V", solved.volts[1] - solved.volts[2]);
    c.near("across_open_V", solved.volts[2]);
    c.near("I_A", solved.amps[1]);
}

#[test]
fn current_rises_as_voltage_falls() {
    let table = reference!("protection/33_led_electronic_loads.toml");
    for row in table.rows("example_constant_power") {
        for (volts, published) in row.nums("U_V").into_iter().zip(row.nums("I_A")) {
            near(
                "48 W",
                amps(row.num("P_in_W"), volts),
                published,
                Absolute(0.006),
            );
        }
    }
    for row in table.rows("example_converter") {
        let drawn = row.num("P_out_W") / row.num("eta");
        for (volts, published) in row.nums("U_V").into_iter().zip(row.nums("I_A")) {
            near("converter", amps(drawn, volts), published, Relative(0.003));
        }
    }
}

/// On a resistive line it stays up while the line has less than half of U²/P to lose, and is gone
/// above: 12 V and 48 W bear 0.75 Ω at most.
#[test]
fn a_line_can_be_too_long_for_it() {
    let law = Law::ConstantPower {
        watts: 48.0,
        lowest_volts: 5.0,
        highest_volts: 32.0,
    };
    let volts = |ohms: f64| in_series(&[source(12.0), Law::Resistor { ohms }, law]).volts[2];
    // v² − 12 v + 48 R = 0: its upper root.
    near("0.5 Ω", volts(0.5), 6.0 + 12.0_f64.sqrt(), Relative(1e-6));
    let fed = in_series(&[source(12.0), Law::Resistor { ohms: 0.8 }, law]);
    assert!(
        fed.amps[2] * fed.volts[2] < 47.0,
        "it can't get 48 W through 0.8 Ω"
    );
}
