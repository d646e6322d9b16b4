//! Resistance: a wire, joint, contact, fuse, heater or coil.
//!
//! Terminals: `a`, `b`, alike. Unknowns: their voltages. Parameter: `ohms` (Ω). Law: `i = v / R`.
//! Range: R at least [`super::LEAST_OHMS`]; below it the nodes are joined. Source: Ohm's law.

use super::Flow;

/// Current and slope at `v`.
pub fn flow(v: f64, ohms: f64) -> Flow {
    Flow {
        amps: v / ohms,
        siemens: 1.0 / ohms,
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn ohm() {
        assert_eq!(
            flow(12.0, 4.0),
            Flow {
                amps: 3.0,
                siemens: 0.25
            }
        );
    }
}
