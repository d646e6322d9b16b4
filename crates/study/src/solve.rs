//! Solves a model. Dead ends are left out first: no current flows into them, so they have the voltage
//! of what they hang on, and most of a loom that is switched off is dead ends.

use crate::network::Model;
use physics::network::{ElementId, Failure, Knobs, Law, Network, Node, Solution, Solver};

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

/// A model laid out for the solver, its dead ends left out.
pub(crate) struct Laid {
    /// What is solved.
    pub network: Network,
    nodes: Vec<Option<Node>>,
    ends: Vec<DeadEnd>,
    /// By element of the model: its own in the network.
    ids: Vec<Option<ElementId>>,
}

/// Solves. The solver keeps what it worked out of a network's shape: relays that stay make the next one quicker.
/// From voltages by pin, where there are some, it finds the answer nearest to them.
pub(crate) fn run(
    m: &Model,
    solver: &mut Solver,
    from: Option<&[Option<f64>]>,
) -> Result<Flows, Failure> {
    let laid = Laid::new(m);
    let knobs = Knobs::default();
    let solved = match from {
        Some(by_pin) => solver.solve_from(&laid.network, &knobs, &laid.start(m, by_pin)),
        None => solver.solve(&laid.network, &knobs),
    };
    let solution = solved.map_err(|f| named(f, &laid.nodes))?;
    Ok(laid.flows(&solution))
}

impl Laid {
    pub(crate) fn new(m: &Model) -> Self {
        let (kept, ends) = without_dead_ends(m);
        let mut network = Network::new();
        let mut nodes: Vec<Option<Node>> = vec![None; m.nodes];
        nodes[0] = Some(Node::GROUND);
        let mut place =
            |n: usize, network: &mut Network| *nodes[n].get_or_insert_with(|| network.node());
        let ids = m.elements.iter().zip(&kept).map(|(e, kept)| {
            kept.then(|| {
                let (a, b) = (place(e.a, &mut network), place(e.b, &mut network));
                network.element(a, b, e.law)
            })
        });
        let ids = ids.collect();
        Self {
            network,
            nodes,
            ends,
            ids,
        }
    }

    /// An element of the model in the network, unless it is a dead end.
    pub(crate) fn id(&self, element: usize) -> Option<ElementId> {
        self.ids[element]
    }

    /// Where a node of the model lies in the network: its own, or that of what it hangs on.
    pub(crate) fn node(&self, mut node: usize) -> Option<Node> {
        while self.nodes[node].is_none() {
            node = self.ends.iter().find(|end| end.node == node)?.hangs_on;
        }
        self.nodes[node]
    }

    /// Puts a solution back onto the whole model.
    pub(crate) fn flows(&self, solution: &Solution) -> Flows {
        let amps = self.ids.iter();
        let amps = amps.map(|id| id.map_or(0.0, |id| solution.amps[id.index()]));
        Flows {
            volts: self.volts(&solution.volts),
            amps: amps.collect(),
        }
    }

    /// Voltages of the network's nodes from those of pins; what is no pin lies halfway between what it joins.
    pub(crate) fn start(&self, m: &Model, by_pin: &[Option<f64>]) -> Vec<f64> {
        let mut known: Vec<Option<f64>> = vec![None; m.nodes];
        known[0] = Some(0.0);
        for (node, volts) in m.node_of_pin.iter().zip(by_pin) {
            if let (Some(node), Some(volts)) = (node, volts) {
                known[*node] = Some(*volts);
            }
        }
        let mut start = vec![0.0; self.network.nodes()];
        for (node, place) in self.nodes.iter().enumerate() {
            let Some(place) = place else { continue };
            start[place.index()] = known[node].unwrap_or_else(|| {
                let beside = m
                    .elements
                    .iter()
                    .filter_map(|e| match (e.a == node, e.b == node) {
                        (true, false) => known[e.b],
                        (false, true) => known[e.a],
                        _ => None,
                    });
                let beside: Vec<f64> = beside.collect();
                beside.iter().sum::<f64>() / beside.len().max(1) as f64
            });
        }
        start
    }

    /// Voltages of the model's nodes from those of the network's.
    pub(crate) fn volts(&self, solved: &[f64]) -> Vec<f64> {
        let at = |n: &Option<Node>| n.map_or(0.0, |n| solved[n.index()]);
        let mut volts: Vec<f64> = self.nodes.iter().map(at).collect();
        // What was cut off last hangs on what is still there.
        for end in self.ends.iter().rev() {
            volts[end.node] = volts[end.hangs_on];
        }
        volts
    }
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
