//! Elements without resistance, taken out before the matrix.
//!
//! Nodes they join share one unknown and differ by a fixed voltage. As they form no loop, they hang
//! together as trees, and each one's current is the sum of all that leaves the part of the tree
//! beyond it. Takes a network; gives who leads each node, and walks in that order.

use super::law::Tie;
use super::{Element, ElementId, Flaw, Law, Network, Node};

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
        let mut search = Search {
            network,
            touching,
            used: vec![false; network.elements().len()],
            seen: vec![false; network.nodes()],
            roots: (0..network.nodes).map(Node).collect(),
            branches: Vec::new(),
            flaws: Vec::new(),
        };
        for start in 0..network.nodes {
            search.grow(Node(start));
        }
        let (roots, branches) = (search.roots, search.branches);
        (Self { roots, branches }, search.flaws)
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

/// Trees half found.
struct Search<'a> {
    network: &'a Network,
    /// Joining elements at each node.
    touching: Vec<Vec<usize>>,
    used: Vec<bool>,
    seen: Vec<bool>,
    roots: Vec<Node>,
    branches: Vec<Branch>,
    flaws: Vec<Flaw>,
}

impl Search<'_> {
    /// Walks the whole tree of a root, unless it is part of one already.
    fn grow(&mut self, root: Node) {
        if std::mem::replace(&mut self.seen[root.index()], true) {
            return;
        }
        let mut queue = vec![root];
        while let Some(near) = queue.pop() {
            self.roots[near.index()] = root;
            for index in std::mem::take(&mut self.touching[near.index()]) {
                if !std::mem::replace(&mut self.used[index], true) {
                    queue.extend(self.cross(near, index));
                }
            }
        }
    }

    /// Crosses an element from `near`; gives the far node, unless that closes a loop.
    fn cross(&mut self, near: Node, index: usize) -> Option<Node> {
        let Element { a, b, .. } = self.network.elements()[index];
        let element = ElementId(index as u32);
        let far_is_a = b == near && a != near;
        let far = if far_is_a { a } else { b };
        if std::mem::replace(&mut self.seen[far.index()], true) {
            self.flaws.push(Flaw::ZeroLoop { element, a, b });
            return None;
        }
        let branch = Branch {
            near,
            far,
            element,
            far_is_a,
        };
        self.branches.push(branch);
        Some(far)
    }
}
