//! D.c. motors at start (32): cases M01, M03.

use super::bench::{in_series, source};
use super::case::Case;
use super::ledger::Run;
use super::reference::{Look, reference};
use super::tolerance::Tolerance::Relative;
use super::tolerance::near;
use physics::motor::{armature_ohms, back_volts, start_amps};
use physics::network::Law;

pub(crate) const RUNS: &[Run] = &[
    Run {
        ids: &["M01"],
        check: small,
    },
    Run {
        ids: &["M03"],
        check: large,
    },
];

fn small(c: &mut Case) {
    // Its resistance from how many times its running current it starts at: the volts that the back
    // e.m.f. leaves, over all of them.
    let multiple = c.num("U") / (c.num("U") - c.num("E"));
    let ohms = armature_ohms(c.num("U"), c.num("I_A"), multiple);
    c.near("R_ohm", ohms);
    c.near("I_start_A", start_amps(c.num("U"), ohms, 0.0));
}

fn large(c: &mut Case) {
    c.near("E", back_volts(c.num("U"), c.num("I_A"), c.num("R_a_ohm")));
    c.near("I_start_A", start_amps(c.num("U"), c.num("R_a_ohm"), 0.0));
}

#[test]
fn every_worked_example() {
    let table = reference!("protection/32_dc_motor.toml");
    for row in table.rows("example") {
        let (volts, ohms) = (row.num("U"), row.num("R_a"));
        near(
            "start",
            start_amps(volts, ohms, 0.0),
            row.num("I_start"),
            Relative(0.002),
        );
        if row.get_at("E_back").is_some() {
            near(
                "back e.m.f.",
                back_volts(volts, row.num("I_run"), ohms),
                row.num("E_back"),
                Relative(0.001),
            );
        }
        if row.get_at("R_series_for_15A").is_some() {
            near(
                "held",
                start_amps(volts, ohms, row.num("R_series_for_15A")),
                15.0,
                Relative(0.001),
            );
        }
        if row.get_at("R_ext_for_2x").is_some() {
            let held = start_amps(volts, ohms, row.num("R_ext_for_2x"));
            near(
                "held to twice",
                held,
                2.0 * row.num("I_rated"),
                Relative(0.001),
            );
        }
    }
}

/// In the network a motor that is held down draws by its armature, and a running one its torque.
#[test]
fn stalled_and_running() {
    let law = Law::Motor {
        rated_volts: 6.0,
        rated_amps: 3.0,
        armature_ohms: 0.5,
    };
    near(
        "running",
        in_series(&[source(6.0), law]).amps[1],
        3.0,
        Relative(1e-9),
    );
    near(
        "too few volts to turn",
        in_series(&[source(0.6), law]).amps[1],
        1.2,
        Relative(1e-9),
    );
}
