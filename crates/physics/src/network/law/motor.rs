//! A running motor under a load that asks for nearly constant torque.
//!
//! Terminals: `a`, `b`, alike. Unknowns: their voltages. Parameters: `rated_volts` (V),
//! `rated_amps` (A), `armature_ohms` (Ω). Law: the lesser of `v / Ra` (too little voltage to turn
//! it) and `I₀ (1 + 0.1 (v/V₀ − 1))` (running), odd; the corner is rounded over 2 % of I₀. Range:
//! steady state only; the start is [`crate::motor`]. Source: reference `protection/32` for `v /
//! Ra`; the slope of 0.1 is an assumption (a fan's or pump's rises more, a winch's less).

use super::{Flow, ramp};

/// Rise of running current with voltage, both over rated.
const SLOPE: f64 = 0.1;
/// Half-width of the rounded corner, over rated current.
const CORNER: f64 = 0.02;

/// Current and slope at `v`.
pub fn flow(v: f64, rated_volts: f64, rated_amps: f64, armature_ohms: f64) -> Flow {
    let size = v.abs();
    let stalled = size / armature_ohms;
    let running = rated_amps * (1.0 + SLOPE * (size / rated_volts - 1.0));
    let running_siemens = rated_amps * SLOPE / rated_volts;
    let (over, share) = ramp(stalled - running, CORNER * rated_amps);
    let amps = if share >= 1.0 {
        running
    } else {
        stalled - over
    };
    let siemens = (1.0 - share) / armature_ohms + share * running_siemens;
    Flow {
        amps: amps.copysign(v),
        siemens,
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn rated_stalled_and_reversed() {
        let at = |v| flow(v, 12.0, 8.0, 0.25).amps;
        assert!((at(12.0) - 8.0).abs() < 1e-12);
        assert!((at(1.0) - 4.0).abs() < 1e-12);
        assert!(at(10.0) > 7.8 && at(10.0) < 8.0);
        assert_eq!(at(-12.0), -8.0);
    }
}
