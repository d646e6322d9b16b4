//! Solves a model. Dead ends are left out first: no current flows into them, so they have the voltage
//! of what they hang on, and most of a loom that is switched off is dead ends.

use crate::network::Model;
use physics::network::{Failure, Knobs, Law, Network, Node, Solution, Solver};

/// Voltages of a model's nodes and currents of its elements.
pub(crate) struct Flows {
    /// By node, V.
    pub volts: Vec<f64>,
    /// By element, A.
    pub amps: Vec<f64>,
}

/// A node at the end of a branch that leads nowhere, with what it hangs on.
struct DeadEnd {
    node: usize,
    hangs_on: usize,
}

/// Solves. The solver keeps what it worked out of a network's shape: relays that stay make the next one quicker.
pub(crate) fn run(m: &Model, solver: &mut Solver) -> Result<Flows, Failure> {
    let (kept, ends) = without_dead_ends(m);
    let mut network = Network::new();
    let mut nodes: Vec<Option<Node>> = vec![None; m.nodes];
    nodes[0] = Some(Node::GROUND);
    let mut place =
        |n: usize, network: &mut Network| *nodes[n].get_or_insert_with(|| network.node());
    for (e, _) in m.elements.iter().zip(&kept).filter(|(_, kept)| **kept) {
        let (a, b) = (place(e.a, &mut network), place(e.b, &mut network));
        network.element(a, b, e.law);
    }
    let solution = solver
        .solve(&network, &Knobs::default())
        .map_err(|f| named(f, &nodes))?;
    Ok(spread(m, &kept, &ends, &nodes, &solution))
}

/// Puts the solution back onto the whole model.
fn spread(
    m: &Model,
    kept: &[bool],
    ends: &[DeadEnd],
    nodes: &[Option<Node>],
    solution: &Solution,
) -> Flows {
    let at = |n: &Option<Node>| n.map_or(0.0, |n| solution.volts[n.index()]);
    let mut volts: Vec<f64> = nodes.iter().map(at).collect();
    // What was cut off last hangs on what is still there.
    for end in ends.iter().rev() {
        volts[end.node] = volts[end.hangs_on];
    }
    let mut flowing = solution.amps.iter();
    let amps = kept.iter().map(|kept| match kept {
        true => flowing.next().copied().unwrap_or(0.0),
        false => 0.0,
    });
    let amps = amps.collect();
    debug_assert_eq!(kept.len(), m.elements.len());
    Flows { volts, amps }
}

/// Which elements remain, and the nodes cut off, in the order in which they were.
fn without_dead_ends(m: &Model) -> (Vec<bool>, Vec<DeadEnd>) {
    let mut kept = vec![true; m.elements.len()];
    let mut meeting: Vec<u32> = vec![0; m.nodes];
    // The sum of the numbers of the elements at a node: when one is left, it is that one.
    let mut sum: Vec<usize> = vec![0; m.nodes];
    for (i, e) in m.elements.iter().enumerate() {
        for n in [e.a, e.b] {
            meeting[n] += 1;
            sum[n] += i;
        }
    }
    let mut ends = Vec::new();
    let mut queue: Vec<usize> = (1..m.nodes).filter(|n| meeting[*n] == 1).collect();
    while let Some(node) = queue.pop() {
        if meeting[node] != 1 {
            continue;
        }
        let element = sum[node];
        let e = &m.elements[element];
        if !passive(&e.law) {
            continue;
        }
        let hangs_on = if e.a == node { e.b } else { e.a };
        kept[element] = false;
        meeting[node] = 0;
        meeting[hangs_on] -= 1;
        sum[hangs_on] -= element;
        ends.push(DeadEnd { node, hangs_on });
        if meeting[hangs_on] == 1 && hangs_on != 0 {
            queue.push(hangs_on);
        }
    }
    (kept, ends)
}

/// Whether an element without voltage carries no current.
fn passive(law: &Law) -> bool {
    !matches!(
        law,
        Law::Source { .. } | Law::Regulated { .. } | Law::Current { .. }
    )
}

/// A failure with the model's own node in it.
fn named(failure: Failure, nodes: &[Option<Node>]) -> Failure {
    match failure {
        Failure::Stuck {
            worst,
            residual,
            passes,
        } => {
            let own = nodes.iter().position(|n| *n == Some(worst)).unwrap_or(0);
            Failure::Stuck {
                worst: Node(own as u32),
                residual,
                passes,
            }
        }
        flawed => flawed,
    }
}
