//! Nothing between two nodes.
//!
//! Terminals: `a`, `b`. Unknowns: none. Parameters: none. Law: `i = 0`. It keeps an element's id
//! while it is switched off; it is no path to ground. Source: definition.

use super::Flow;

/// No current, no slope.
pub fn flow() -> Flow {
    Flow {
        amps: 0.0,
        siemens: 0.0,
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn is_nothing() {
        assert_eq!(flow().amps, 0.0);
    }
}
