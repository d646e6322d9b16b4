//! Capacitors at the instant of switching on: case E02.

use super::case::Case;
use super::ledger::Run;
use physics::capacitor::{inrush_amps, square_seconds, time_constant};

pub(crate) const RUNS: &[Run] = &[Run {
    ids: &["E02"],
    check: capacitor,
}];

fn capacitor(c: &mut Case) {
    let (volts, farads, ohms) = (c.num("U"), c.num("C_uF") * 1e-6, c.num("R_ohm"));
    c.near("I_peak_A", inrush_amps(volts, ohms));
    c.near("tau_us", time_constant(farads, ohms) * 1e6);
    c.near("I2t_A2s", square_seconds(volts, farads, ohms));
}
