//! A voltage behind a resistance: a battery.
//!
//! Terminals: `a` positive, `b` negative. Unknowns: their voltages. Parameters: `volts` (V) without
//! current, `ohms` (Ω) internal. Law: `i = (v − E) / R`, negative while it delivers. Range: R at
//! least [`super::LEAST_OHMS`]; below it the nodes are joined at E. Source: Thévenin's theorem.

use super::Flow;

/// Current and slope at `v`.
pub fn flow(v: f64, volts: f64, ohms: f64) -> Flow {
    Flow {
        amps: (v - volts) / ohms,
        siemens: 1.0 / ohms,
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn delivers_below_its_voltage_and_takes_above() {
        assert!((flow(12.0, 12.6, 0.01).amps + 60.0).abs() < 1e-9);
        assert!((flow(14.2, 12.6, 0.01).amps - 160.0).abs() < 1e-9);
    }
}
