//! Electronics and lights with a driver: constant power, so current rises as voltage falls.
//!
//! Terminals: `a` positive, `b` negative. Unknowns: their voltages. Parameters: `watts` (W),
//! `lowest_volts` and `highest_volts` (V). Law: `i = P/v` from the lowest voltage up, also above
//! the highest (what that does to the load is for the caller to find). In a band of 5 % below the
//! lowest it fades by `t²(3 − 2t)` to a leak of 1 µS, which is all it passes when dead or reversed.
//! Range: a lowest voltage under 0.5 V counts as 0.5 V. Source: reference `protection/33` (constant
//! power); fade and leak are assumptions, small against anything a person would notice.

use super::Flow;

/// Conductance when dead or reversed, S: 12 µA at 12 V, less than a car radio asleep.
pub const LEAK_SIEMENS: f64 = 1e-6;
/// Band below the lowest voltage in which it gives up, over that voltage.
const FADE: f64 = 0.05;
/// No electronics in a vehicle start below this, V; keeps P/v finite.
const LEAST_VOLTS: f64 = 0.5;

/// Current and slope at `v`.
pub fn flow(v: f64, watts: f64, lowest_volts: f64) -> Flow {
    let lowest = lowest_volts.max(LEAST_VOLTS);
    let band = FADE * lowest;
    let t = ((v - lowest + band) / band).clamp(0.0, 1.0);
    let leak = Flow {
        amps: LEAK_SIEMENS * v,
        siemens: LEAK_SIEMENS,
    };
    if t <= 0.0 {
        return leak;
    }
    let full = Flow {
        amps: watts / v,
        siemens: -watts / (v * v),
    };
    let (on, turn) = (t * t * (3.0 - 2.0 * t), 6.0 * t * (1.0 - t) / band);
    Flow {
        amps: on * full.amps + (1.0 - on) * leak.amps,
        siemens: on * full.siemens + (1.0 - on) * leak.siemens + turn * (full.amps - leak.amps),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn forty_eight_watts_by_the_reference_table() {
        let table = [
            (9.0, 5.33),
            (10.5, 4.57),
            (12.0, 4.0),
            (14.4, 3.33),
            (24.0, 2.0),
            (28.0, 1.71),
        ];
        for (volts, amps) in table {
            assert!(
                (flow(volts, 48.0, 9.0).amps - amps).abs() < 0.006,
                "{volts}"
            );
        }
    }

    #[test]
    fn dead_below_and_reversed() {
        for volts in [8.5, 3.0, 0.0, -14.0] {
            assert!(flow(volts, 48.0, 9.0).amps.abs() < 2e-5);
        }
    }
}
