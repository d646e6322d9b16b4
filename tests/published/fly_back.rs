//! What a coil throws back when it is switched off (23): case R05.

use super::bench::ZERO;
use super::case::Case;
use super::ledger::Run;
use super::reference::{Look, reference};
use super::tolerance::Tolerance::{Absolute, Relative};
use super::tolerance::near;
use physics::coil::{RISE_AT_NOMINAL_K, fly_back_volts, pull_in_volts};

pub(crate) const RUNS: &[Run] = &[Run {
    ids: &["R05"],
    check: with_resistor,
}];

fn with_resistor(c: &mut Case) {
    let ours = fly_back_volts(c.num("U"), c.num("R_coil_ohm"), c.num("R_par_ohm"));
    c.wider(
        "V_peak",
        ours,
        Relative(1e-9),
        "the same formula; the list's tolerance is the measurement's",
    );
    c.near("V_peak_measured", ours);
}

#[test]
fn measured_on_a_bench() {
    let table = reference!("protection/23_relay_coil_temperature_suppression.toml");
    let row = table
        .rows("suppression")
        .iter()
        .find(|r| r.get_at("V_peak_theory").is_some());
    let row = row.unwrap_or_else(|| panic!("no measurement"));
    let (supply, coil, across) = (12.0, 120.0, 680.0);
    let ours = fly_back_volts(supply, coil, across);
    near("theory", ours, row.num("V_peak_theory"), Relative(1e-9));
    // The switch takes 2.6 ms to open, and some of the current is gone by then.
    near("measured", ours, row.num("V_peak_measured"), Relative(0.05));
    let both = coil * across / (coil + across);
    near("both", both, row.num("R_total_ohm"), Relative(1e-9));
    let amps = supply / both * 1e3;
    near("current", amps, row.num("I_mA_measured"), Relative(0.03));
}

/// A coil that was on for long is 40 to 60 K hotter, and needs 16 to 24 % more to pull in again.
#[test]
fn hot_start() {
    for (warmer, percent) in [(40.0, 16.0), (60.0, 24.0)] {
        let ratio = pull_in_volts(1.0, ZERO + 20.0, ZERO + 20.0 + warmer);
        near("hot start", (ratio - 1.0) * 100.0, percent, Absolute(0.5));
    }
    assert!((40.0..=60.0).contains(&RISE_AT_NOMINAL_K));
}
