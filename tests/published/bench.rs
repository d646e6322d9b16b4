//! A bench for worked examples: small circuits that our own network solver works out, and sizes by
//! the names that the tables use.

use physics::network::{Knobs, Law, Network, Node, Solution, solve};
use quantity::Gauge;

/// A foot, m.
pub(crate) const FOOT: f64 = 0.3048;
/// 0 °C, K.
pub(crate) const ZERO: f64 = physics::conductor::T0;

/// A gauge by the tables' name for it: "4/0", "10".
pub(crate) fn gauge(size: &str) -> Gauge {
    Gauge::read(size).unwrap_or_else(|| panic!("{size} is no gauge"))
}

/// Elements one behind the other, from ground through all of them back to ground.
pub(crate) fn in_series(laws: &[Law]) -> Solution {
    let mut network = Network::new();
    let mut here = Node::GROUND;
    for (i, law) in laws.iter().enumerate() {
        let next = if i + 1 == laws.len() {
            Node::GROUND
        } else {
            network.node()
        };
        // A source stands with its positive end towards the next element.
        match law {
            Law::Source { .. } => network.element(next, here, *law),
            _ => network.element(here, next, *law),
        };
        here = next;
    }
    solve(&network, &Knobs::default()).unwrap_or_else(|e| panic!("{laws:?}: {e}"))
}

/// A voltage without resistance of its own.
pub(crate) fn source(volts: f64) -> Law {
    Law::Source { volts, ohms: 0.0 }
}

/// Volts lost over a resistance on the way to a load that takes these amperes.
pub(crate) fn lost(ohms: f64, amps: f64) -> f64 {
    let supply = 100.0;
    let solved = in_series(&[
        source(supply),
        Law::Resistor { ohms },
        Law::Current { amps },
    ]);
    supply - solved.volts[2]
}

/// Watts turned to heat in a resistance that carries these amperes.
pub(crate) fn heat(ohms: f64, amps: f64) -> f64 {
    lost(ohms, amps) * amps
}
