//! The whole walk from a network to its voltages and currents, with the shape kept for re-use.

use super::factor::Factor;
use super::ladder::{Climb, climb};
use super::shape::Shape;
use super::{Flaw, Knobs, Network, Node};
use std::fmt;

/// What a circuit settles at.
#[derive(Clone, Debug, PartialEq)]
pub struct Solution {
    /// Voltage of each node against ground, V, by [`Node::index`].
    pub volts: Vec<f64>,
    /// Current through each element from `a` to `b`, A, by [`super::ElementId::index`].
    pub amps: Vec<f64>,
    /// How many times the matrix was factored.
    pub passes: usize,
    /// Worst imbalance at any node, over the sum of the currents that meet there.
    pub residual: f64,
    /// What it took.
    pub rung: Rung,
}

/// A rung of the ladder of what is tried.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Rung {
    /// Newton's method from full voltage.
    Newton,
    /// Settling with a capacitor on every node.
    Settling,
    /// Sources raised from nothing.
    SourceStepping,
}

/// Why there is no solution.
#[derive(Clone, Debug, PartialEq)]
pub enum Failure {
    /// The network has no one answer.
    Flawed(Vec<Flaw>),
    /// No rung of the ladder held.
    Stuck {
        /// The node that balances worst.
        worst: Node,
        /// Imbalance there, over the sum of the currents that meet there.
        residual: f64,
        /// How many times the matrix was factored.
        passes: usize,
    },
}

impl fmt::Display for Failure {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Flawed(flaws) => {
                let words: Vec<String> = flaws.iter().map(Flaw::to_string).collect();
                f.write_str(&words.join("; "))
            }
            Self::Stuck {
                worst,
                residual,
                passes,
            } => write!(
                f,
                "no balance after {passes} passes: node {} is worst, out by {residual:.1e}",
                worst.0
            ),
        }
    }
}

impl std::error::Error for Failure {}

/// Solves networks one after another, keeping the symbolic work while the shape stays.
#[derive(Default)]
pub struct Solver {
    known: Option<(Shape, Factor)>,
}

impl Solver {
    /// A solver that knows no shape yet.
    pub fn new() -> Self {
        Self::default()
    }

    /// Solves a network; a new shape is inspected and analysed first. It starts afresh, so the
    /// answer never depends on the one before.
    pub fn solve(&mut self, network: &Network, knobs: &Knobs) -> Result<Solution, Failure> {
        self.run(network, knobs, None)
    }

    /// Solves a network from voltages near its answer, by [`Node::index`]: those of the same network
    /// before a value changed or a switch was thrown. Where there is one answer it is the one that
    /// [`Solver::solve`] gives, sooner. Where there are two (a driver that has given up for want of
    /// voltage could also hold out) it is the nearer one. A start that leads nowhere costs its
    /// passes; then, and where it has another number of nodes, all is as with [`Solver::solve`].
    pub fn solve_from(
        &mut self,
        network: &Network,
        knobs: &Knobs,
        start_volts: &[f64],
    ) -> Result<Solution, Failure> {
        let fits = start_volts.len() == network.nodes();
        let usable = fits && start_volts.iter().all(|volts| volts.is_finite());
        self.run(network, knobs, usable.then_some(start_volts))
    }

    fn run(
        &mut self,
        network: &Network,
        knobs: &Knobs,
        from: Option<&[f64]>,
    ) -> Result<Solution, Failure> {
        let (shape, factor) = self.known(network).map_err(Failure::Flawed)?;
        finish(shape, climb(shape, factor, network, knobs, from))
    }

    /// The shape of a network, inspected and analysed unless it is the one before.
    pub(super) fn known(&mut self, network: &Network) -> Result<(&Shape, &mut Factor), Vec<Flaw>> {
        let fits = |known: &(Shape, Factor)| known.0.fits(network);
        match self.known.take().filter(fits) {
            Some(known) => {
                let known = self.known.insert(known);
                let flaws = network.bad_values();
                match flaws.is_empty() {
                    true => Ok((&known.0, &mut known.1)),
                    false => Err(flaws),
                }
            }
            None => {
                let known = self.known.insert(Shape::new(network)?);
                Ok((&known.0, &mut known.1))
            }
        }
    }
}

/// Solves one network.
pub fn solve(network: &Network, knobs: &Knobs) -> Result<Solution, Failure> {
    Solver::new().solve(network, knobs)
}

fn finish(shape: &Shape, climb: Climb) -> Result<Solution, Failure> {
    let Climb {
        mut state,
        rung,
        passes,
    } = climb;
    let residual = state.worst().0;
    let Some(rung) = rung else {
        let worst = state.worst_node(shape);
        return Err(Failure::Stuck {
            worst,
            residual,
            passes,
        });
    };
    let mut leaving = vec![0.0; state.volts.len()];
    for (amps, ends) in state.amps.iter().zip(shape.terminals()) {
        leaving[ends.0.index()] += amps;
        leaving[ends.1.index()] -= amps;
    }
    shape.joins.fill_amps(&mut leaving, &mut state.amps);
    let (volts, amps) = (state.volts, state.amps);
    Ok(Solution {
        volts,
        amps,
        passes,
        residual,
        rung,
    })
}
