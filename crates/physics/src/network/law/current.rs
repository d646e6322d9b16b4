//! A current that nothing changes: what the vehicle itself draws.
//!
//! Terminals: `a`, `b`; current runs from `a` to `b`. Unknowns: none of its own. Parameter: `amps`
//! (A). Law: `i = I`. It is no path to ground. Range: any. Source: definition.

use super::Flow;

/// Current and slope, at any voltage.
pub fn flow(amps: f64) -> Flow {
    Flow { amps, siemens: 0.0 }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn is_what_it_is() {
        assert_eq!(
            flow(28.0),
            Flow {
                amps: 28.0,
                siemens: 0.0
            }
        );
    }
}
