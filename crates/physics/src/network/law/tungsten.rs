//! A tungsten lamp, settled at its voltage.
//!
//! Terminals: `a`, `b`, alike. Unknowns: their voltages. Parameters: `rated_volts` (V),
//! `rated_amps` (A). Law: `i = I₀ (v/V₀)^0.55`, odd. The power law would conduct without bound at
//! nothing, so below a small voltage v₁ a cubic takes over, `i₁ (1.225 x − 0.225 x³)` with
//! `x = v/v₁`: same value and slope at v₁, and at zero the cold filament's conductance. v₁ is 0.6 %
//! of rated. Range: steady state only; inrush is [`crate::lamp`]. Source: reference
//! `protection/30` (exponent), `31` (cold multiple).

use super::Flow;
use crate::lamp::{COLD_MULTIPLE, CURRENT_EXPONENT as N};

/// Coefficients of the cubic, from value 1 and slope N at x = 1.
const CUBIC: f64 = (N - 1.0) / 2.0;
const LINEAR: f64 = 1.0 - CUBIC;

/// Current and slope at `v`.
pub fn flow(v: f64, rated_volts: f64, rated_amps: f64) -> Flow {
    let size = v.abs() / rated_volts;
    // Where the cubic's slope at zero is the cold conductance.
    let meet = (LINEAR / COLD_MULTIPLE).powf(1.0 / (1.0 - N));
    if size >= meet {
        let amps = rated_amps * size.powf(N);
        return Flow {
            amps: amps.copysign(v),
            siemens: N * amps / v.abs(),
        };
    }
    let (amps, x) = (rated_amps * meet.powf(N), size / meet);
    Flow {
        amps: (amps * x * (LINEAR + CUBIC * x * x)).copysign(v),
        siemens: amps * (LINEAR + 3.0 * CUBIC * x * x) / (meet * rated_volts),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn power_law_rated_point_and_odd() {
        assert!((flow(12.0, 12.0, 4.6).amps - 4.6).abs() < 1e-12);
        let low = flow(6.0, 12.0, 4.6).amps;
        assert!((low / 4.6 - 0.5_f64.powf(0.55)).abs() < 1e-12);
        assert_eq!(flow(-6.0, 12.0, 4.6).amps, -low);
    }

    #[test]
    fn at_nothing_it_is_a_cold_filament() {
        let at = flow(0.0, 12.0, 4.0);
        assert_eq!(at.amps, 0.0);
        assert!((at.siemens / (COLD_MULTIPLE * 4.0 / 12.0) - 1.0).abs() < 1e-12);
    }
}
