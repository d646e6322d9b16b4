//! A regulated supply with a most it can deliver: an alternator.
//!
//! Terminals: `a` positive, `b` negative. Unknowns: their voltages. Parameters: `volts` (V)
//! regulated, `ohms` (Ω) fall of voltage with current, `limit_amps` (A). Law: delivers
//! `d = (E − v) / R` held between 0 and the limit; `i = −d`. Both corners are rounded over 1 % of
//! the limit and at most 1 A, so `d` is exact elsewhere (a battery's limit is its short circuit, and
//! 1 % of that is tens of amperes); at the limit it is a current source, and its rectifier
//! takes nothing in. Range: R above [`super::LEAST_OHMS`], limit at least 0. Source: common
//! practice for alternators (limit by speed and heat in [`crate::alternator`]).

use super::{Flow, ramp};

/// Half-width of a rounded corner, over the limit: far below what a rating is known to.
const CORNER: f64 = 0.01;
/// The widest corner, A.
const WIDEST: f64 = 1.0;

/// Current and slope at `v`.
pub fn flow(v: f64, volts: f64, ohms: f64, limit_amps: f64) -> Flow {
    let wanted = (volts - v) / ohms;
    // A machine that delivers nothing still needs a corner of some width.
    let corner = (CORNER * limit_amps).clamp(1e-9, WIDEST);
    let (upward, rise) = ramp(wanted, corner);
    let (cut, fall) = ramp(wanted - limit_amps, corner);
    // At the limit both are huge and their difference is the limit: say it, don't subtract.
    let amps = if wanted >= limit_amps + corner {
        limit_amps
    } else {
        upward - cut
    };
    Flow {
        amps: -amps,
        siemens: (rise - fall) / ohms,
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn regulates_limits_and_never_takes_in() {
        let at = |v| flow(v, 14.2, 0.01, 55.0);
        assert!((at(13.9).amps + 30.0).abs() < 1e-9);
        assert_eq!(
            at(12.0),
            Flow {
                amps: -55.0,
                siemens: 0.0
            }
        );
        assert_eq!(at(15.0).amps, 0.0);
        assert!(flow(12.0, 14.2, 0.01, 0.0).amps.abs() < 1e-9);
    }

    #[test]
    fn a_battery_that_may_give_thousands_gives_twenty_exactly() {
        let (open, ohms) = (12.85, 4e-3);
        let given = -flow(open - 20.0 * ohms, open, ohms, 3200.0).amps;
        assert!((given - 20.0).abs() < 1e-9, "{given}");
        assert_eq!(flow(open + 2.0 * ohms, open, ohms, 3200.0).amps, 0.0);
    }
}
