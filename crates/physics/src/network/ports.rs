//! A solved network as a few of its elements see it, so that their resistances can change without
//! factoring again.
//!
//! Around a solution every law is a straight line of slope `G`. With `A` the columns +1, −1 of the chosen
//! pairs of nodes and `J` the matrix of all slopes, `Z = Aᵀ J⁻¹ A`. Where the conductances between the
//! pairs change by `Δ`, what drives the change is `Δ u₀`, and the voltages across them become
//! `u = (1 + Z Δ)⁻¹ u₀`: as many unknowns as pairs (Woodbury's identity). All other voltages follow by
//! `v = v₀ − J⁻¹ A Δ u`.
//!
//! Range: exact where all laws are straight lines; else as good as the slopes hold, which the caller finds by
//! solving anew. Source: M. A. Woodbury, 1950, textbook. `cargo bench` measures it against factoring anew.

use super::law::Law;
use super::shape::Shape;
use super::state::{Reading, Stage, State};
use super::{ElementId, Network, Node, Solution, Solver};

/// A network around a solution.
#[derive(Clone, Debug)]
pub struct Ports {
    /// Voltages of all nodes in the solution.
    volts: Vec<f64>,
    /// `J⁻¹ A`: by pair, by node.
    columns: Vec<Vec<f64>>,
    /// Z, row by row.
    z: Vec<f64>,
    /// Voltages across the pairs in the solution.
    across: Vec<f64>,
    /// Conductances between the pairs in the solution, S.
    siemens: Vec<f64>,
}

impl Ports {
    /// The network around `solution` as resistors see it. None where the slopes there make no sound matrix,
    /// or where an element is no resistor or has no resistance.
    pub fn new(
        solver: &mut Solver,
        network: &Network,
        solution: &Solution,
        resistors: &[ElementId],
    ) -> Option<Self> {
        let pairs = resistors.iter().map(|id| {
            let element = network.get(*id);
            match element.law {
                Law::Resistor { ohms } if ohms >= super::law::LEAST_OHMS => {
                    Some((element.a, element.b, 1.0 / ohms))
                }
                _ => None,
            }
        });
        Self::between(
            solver,
            network,
            solution,
            &pairs.collect::<Option<Vec<_>>>()?,
        )
    }

    /// The same between pairs of nodes, each with the conductance (S) that it has already.
    pub fn between(
        solver: &mut Solver,
        network: &Network,
        solution: &Solution,
        pairs: &[(Node, Node, f64)],
    ) -> Option<Self> {
        let (shape, factor) = solver.known(network).ok()?;
        let stage = Stage::new(shape, network, 1.0);
        let mut state = State::at(shape, &solution.volts);
        state.evaluate(&stage, Reading::AsItIs);
        state.fill(shape, factor);
        if !factor.factorise() {
            return None;
        }
        let count = shape.count;
        let columns: Vec<Vec<f64>> = pairs
            .iter()
            .map(|&(a, b, _)| {
                let mut right = vec![0.0; count + 1];
                right[unknown(shape, a)] += 1.0;
                right[unknown(shape, b)] -= 1.0;
                if count > 0 {
                    factor.solve(&mut right[..count]);
                }
                right[count] = 0.0;
                let nodes = shape.unknowns.iter();
                nodes.map(|&unknown| right[unknown as usize]).collect()
            })
            .collect();
        let volts = solution.volts.clone();
        let drop = |by_node: &[f64], (a, b, _): &(Node, Node, f64)| {
            by_node[a.index()] - by_node[b.index()]
        };
        let z = pairs
            .iter()
            .flat_map(|pair| columns.iter().map(move |column| drop(column, pair)))
            .collect();
        Some(Self {
            z,
            across: pairs.iter().map(|pair| drop(&volts, pair)).collect(),
            siemens: pairs.iter().map(|pair| pair.2).collect(),
            columns,
            volts,
        })
    }

    /// How many pairs.
    pub fn count(&self) -> usize {
        self.across.len()
    }

    /// Currents between the pairs, A, with these conductances, S, between them. `volts` holds the voltages
    /// across them after.
    pub fn amps(&self, siemens: &[f64], volts: &mut Vec<f64>, amps: &mut [f64]) {
        let n = self.count();
        let mut matrix = vec![0.0; n * n];
        for row in 0..n {
            for column in 0..n {
                let change = siemens[column] - self.siemens[column];
                matrix[row * n + column] =
                    self.z[row * n + column] * change + f64::from(u8::from(row == column));
            }
        }
        volts.clear();
        volts.extend_from_slice(&self.across);
        eliminate(&mut matrix, volts);
        for ((amps, volts), siemens) in amps.iter_mut().zip(volts.iter()).zip(siemens) {
            *amps = volts * siemens;
        }
    }

    /// Voltages of all nodes, V, with these conductances, S, and what [`Ports::amps`] found across the pairs.
    pub fn volts(&self, siemens: &[f64], across: &[f64]) -> Vec<f64> {
        let mut volts = self.volts.clone();
        for (p, column) in self.columns.iter().enumerate() {
            let driven = (siemens[p] - self.siemens[p]) * across[p];
            for (volts, column) in volts.iter_mut().zip(column) {
                *volts -= column * driven;
            }
        }
        volts
    }
}

fn unknown(shape: &Shape, node: Node) -> usize {
    shape.unknowns[node.index()] as usize
}

/// Solves in place, with the largest pivot of each column.
fn eliminate(matrix: &mut [f64], right: &mut [f64]) {
    let n = right.len();
    for at in 0..n {
        let size = |row: &usize| matrix[row * n + at].abs();
        let pivot = (at..n)
            .max_by(|a, b| size(a).total_cmp(&size(b)))
            .unwrap_or(at);
        if pivot != at {
            for column in 0..n {
                matrix.swap(at * n + column, pivot * n + column);
            }
            right.swap(at, pivot);
        }
        for row in at + 1..n {
            let part = matrix[row * n + at] / matrix[at * n + at];
            for column in at..n {
                matrix[row * n + column] -= part * matrix[at * n + column];
            }
            right[row] -= part * right[at];
        }
    }
    for at in (0..n).rev() {
        let beyond: f64 = (at + 1..n).map(|c| matrix[at * n + c] * right[c]).sum();
        right[at] = (right[at] - beyond) / matrix[at * n + at];
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::network::Knobs;

    /// A battery, a bus, two lamps behind wires, and a heater.
    fn bus() -> (Network, [ElementId; 3]) {
        let mut n = Network::new();
        let nodes: Vec<Node> = (0..5).map(|_| n.node()).collect();
        let wire = |n: &mut Network, a, b, ohms| n.element(a, b, Law::Resistor { ohms });
        let source = Law::Source {
            volts: 12.7,
            ohms: 0.006,
        };
        n.element(nodes[0], Node::GROUND, source);
        let feeder = wire(&mut n, nodes[0], nodes[1], 0.012);
        let first = wire(&mut n, nodes[1], nodes[2], 0.05);
        let second = wire(&mut n, nodes[1], nodes[3], 0.08);
        let lamp = Law::Tungsten {
            rated_volts: 13.2,
            rated_amps: 4.2,
        };
        n.element(nodes[2], Node::GROUND, lamp);
        n.element(nodes[3], Node::GROUND, lamp);
        n.element(nodes[3], nodes[4], Law::Resistor { ohms: 0.7 });
        n.element(nodes[4], Node::GROUND, Law::Resistor { ohms: 0.4 });
        (n, [feeder, first, second])
    }

    #[test]
    fn a_hotter_wire_carries_what_a_new_solution_says() {
        let (mut n, wires) = bus();
        let mut solver = Solver::new();
        let before = solver.solve(&n, &Knobs::default()).unwrap();
        let ports = Ports::new(&mut solver, &n, &before, &wires).unwrap();
        let ohms = [0.015, 0.06, 0.1];
        let siemens = ohms.map(|r| 1.0 / r);
        let (mut across, mut amps) = (Vec::new(), [0.0; 3]);
        ports.amps(&siemens, &mut across, &mut amps);
        for (wire, ohms) in wires.iter().zip(ohms) {
            n.set(*wire, Law::Resistor { ohms });
        }
        let after = Solver::new().solve(&n, &Knobs::default()).unwrap();
        for (wire, amps) in wires.iter().zip(amps) {
            // The lamps' curves are all that the lines miss.
            let full = after.amps[wire.index()];
            assert!((amps / full - 1.0).abs() < 1e-3, "{amps} {full}");
        }
        for (ours, full) in ports.volts(&siemens, &across).iter().zip(&after.volts) {
            assert!((ours - full).abs() < 0.01, "{ours} {full}");
        }
    }

    #[test]
    fn a_new_short_is_one_more_pair() {
        let mut n = Network::new();
        let (top, middle) = (n.node(), n.node());
        let source = Law::Source {
            volts: 12.0,
            ohms: 0.01,
        };
        n.element(top, Node::GROUND, source);
        n.element(top, middle, Law::Resistor { ohms: 0.05 });
        n.element(middle, Node::GROUND, Law::Resistor { ohms: 3.0 });
        let mut solver = Solver::new();
        let before = solver.solve(&n, &Knobs::default()).unwrap();
        let pair = [(middle, Node::GROUND, 0.0)];
        let ports = Ports::between(&mut solver, &n, &before, &pair).unwrap();
        let (mut across, mut amps) = (Vec::new(), [0.0]);
        ports.amps(&[1.0 / 0.02], &mut across, &mut amps);
        let load = 1.0 / (1.0 / 3.0 + 1.0 / 0.02);
        let volts = 12.0 * load / (0.06 + load);
        assert!((amps[0] - volts / 0.02).abs() < 1e-9, "{}", amps[0]);
        assert!((ports.volts(&[50.0], &across)[middle.index()] - volts).abs() < 1e-9);
    }

    #[test]
    fn what_is_no_resistor_is_refused() {
        let (n, _) = bus();
        let mut solver = Solver::new();
        let before = solver.solve(&n, &Knobs::default()).unwrap();
        assert!(Ports::new(&mut solver, &n, &before, &[ElementId(0)]).is_none());
    }
}
