//! Elements without resistance, taken out before the matrix.
//!
//! Nodes they join share one unknown and differ by a fixed voltage. As they form no loop, they hang
//! together as trees, and each one's current is the sum of all that leaves the part of the tree
//! beyond it. Takes a network; gives who leads each node, and walks in that order.

use super::law::Tie;
use super::{ElementId, Flaw, Law, Network, Node};

/// One joining element, from a node nearer its tree's root to one further out.
#[derive(Clone, Copy, Debug)]
struct Branch {
    near: Node,
    far: Node,
    element: ElementId,
    /// Whether the far node is the element's terminal `a`.
    far_is_a: bool,
}

/// The trees of joined nodes.
#[derive(Clone, Debug)]
pub(super) struct Joins {
    /// Each node's root, itself where nothing joins it.
    pub(super) roots: Vec<Node>,
    /// Joining elements, outwards from each root.
    branches: Vec<Branch>,
}

impl Joins {
    /// Finds the trees, and the elements that would close a loop in them.
    pub(super) fn find(network: &Network) -> (Self, Vec<Flaw>) {
        let mut touching: Vec<Vec<usize>> = vec![Vec::new(); network.nodes()];
        for (index, element) in network.elements().iter().enumerate() {
            if matches!(element.law.tie(), Tie::Joins) {
                touching[element.a.index()].push(index);
                touching[element.b.index()].push(index);
            }
        }
        let mut found = Self {
            roots: (0..network.nodes).map(Node).collect(),
            branches: Vec::new(),
        };
        let mut seen = vec![false; network.nodes()];
        let mut used = vec![false; network.elements().len()];
        let mut flaws = Vec::new();
        for start in 0..network.nodes() {
            if seen[start] {
                continue;
            }
            seen[start] = true;
            let mut queue = vec![Node(start as u32)];
            while let Some(near) = queue.pop() {
                found.roots[near.index()] = Node(start as u32);
                for &index in &touching[near.index()] {
                    if std::mem::replace(&mut used[index], true) {
                        continue;
                    }
                    let element = network.elements()[index];
                    let far_is_a = element.b == near && element.a != near;
                    let far = if far_is_a { element.a } else { element.b };
                    let element_id = ElementId(index as u32);
                    if std::mem::replace(&mut seen[far.index()], true) {
                        let (a, b) = (element.a, element.b);
                        flaws.push(Flaw::ZeroLoop {
                            element: element_id,
                            a,
                            b,
                        });
                        continue;
                    }
                    let element = element_id;
                    found.branches.push(Branch {
                        near,
                        far,
                        element,
                        far_is_a,
                    });
                    queue.push(far);
                }
            }
        }
        (found, flaws)
    }

    /// How far each node stands above its root, V, with sources at `part` of their full voltage.
    pub(super) fn offsets(&self, network: &Network, part: f64) -> Vec<f64> {
        let mut offsets = vec![0.0; self.roots.len()];
        for branch in &self.branches {
            let rise = match network.get(branch.element).law {
                Law::Source { volts, .. } => volts * part,
                _ => 0.0,
            };
            let step = if branch.far_is_a { rise } else { -rise };
            offsets[branch.far.index()] = offsets[branch.near.index()] + step;
        }
        offsets
    }

    /// Fills in the currents of joining elements, from what leaves each node by all others.
    pub(super) fn fill_amps(&self, leaving: &mut [f64], amps: &mut [f64]) {
        for branch in self.branches.iter().rev() {
            let out = leaving[branch.far.index()];
            // What leaves the far node elsewhere must come to it over this branch.
            amps[branch.element.index()] = if branch.far_is_a { -out } else { out };
            leaving[branch.far.index()] = 0.0;
            leaving[branch.near.index()] += out;
        }
    }
}
