//! The part of a network that stays while its values change: unknowns, matrix places, joined trees.

use super::factor::Factor;
use super::joins::Joins;
use super::law::Tie;
use super::{Element, Flaw, Network, Node};

/// What an element adds to.
#[derive(Clone, Copy, Debug)]
pub(super) struct Place {
    /// Its terminals.
    pub(super) nodes: [Node; 2],
    /// Unknown of each terminal; ground's place where it has none.
    pub(super) ends: [u32; 2],
    /// Matrix entries: of `a`, of `b`, and between them; the sink where there is none.
    pub(super) entries: [u32; 3],
}

/// A network's shape, and what was worked out from it.
pub(super) struct Shape {
    /// What the shape was made from, to know it again.
    key: (u32, Vec<(Node, Node, Tie)>),
    pub(super) joins: Joins,
    /// Unknown of each node; `count`, which is ground's place, for those joined to ground.
    pub(super) unknowns: Vec<u32>,
    pub(super) places: Vec<Place>,
    /// How many unknowns there are.
    pub(super) count: usize,
}

impl Shape {
    /// Works a shape out, unless the network has flaws.
    pub(super) fn new(network: &Network) -> Result<(Self, Factor), Vec<Flaw>> {
        network.inspect()?;
        let joins = Joins::find(network).0;
        let (unknowns, count) = number(&joins.roots);
        let pairs: Vec<(u32, u32)> = network
            .elements()
            .iter()
            .filter(|element| conducts(element))
            .map(|element| (unknowns[element.a.index()], unknowns[element.b.index()]))
            .filter(|&(a, b)| a != b && a != count && b != count)
            .collect();
        let factor = Factor::new(count.max(1) as usize, &pairs);
        let places = network
            .elements()
            .iter()
            .map(|element| place(element, &unknowns, count, &factor))
            .collect();
        let key = key(network);
        let count = count as usize;
        Ok((
            Self {
                key,
                joins,
                unknowns,
                places,
                count,
            },
            factor,
        ))
    }

    /// Whether a network still has this shape.
    pub(super) fn fits(&self, network: &Network) -> bool {
        self.key.0 == network.nodes
            && self.key.1.len() == network.elements.len()
            && network
                .elements
                .iter()
                .zip(&self.key.1)
                .all(|(element, &key)| (element.a, element.b, element.law.tie()) == key)
    }

    /// Both nodes of each element.
    pub(super) fn terminals(&self) -> impl Iterator<Item = (Node, Node)> {
        self.key.1.iter().map(|&(a, b, _)| (a, b))
    }
}

/// An unknown for each root but ground, in rising order, and how many; ground has that number.
fn number(roots: &[Node]) -> (Vec<u32>, u32) {
    let is_unknown = |&(node, root): &(usize, &Node)| root.index() == node && node > 0;
    let count = roots.iter().enumerate().filter(is_unknown).count() as u32;
    let mut unknowns: Vec<u32> = Vec::with_capacity(roots.len());
    let mut next = 0;
    for (node, root) in roots.iter().enumerate() {
        // A root has the lowest number of its tree, so its unknown is there already.
        unknowns.push(if *root == Node::GROUND {
            count
        } else if root.index() < node {
            unknowns[root.index()]
        } else {
            next += 1;
            next - 1
        });
    }
    (unknowns, count)
}

fn key(network: &Network) -> (u32, Vec<(Node, Node, Tie)>) {
    let elements = network.elements().iter();
    let ties = elements.map(|element| (element.a, element.b, element.law.tie()));
    (network.nodes, ties.collect())
}

fn conducts(element: &Element) -> bool {
    element.law.tie() == Tie::Conducts
}

fn place(element: &Element, unknowns: &[u32], ground: u32, factor: &Factor) -> Place {
    let nodes = [element.a, element.b];
    let ends = nodes.map(|node| unknowns[node.index()]);
    // An element across one unknown drives no current through the rest.
    let conducts = conducts(element) && ends[0] != ends[1];
    let entry = |i: u32, j: u32| {
        if conducts && i != ground && j != ground {
            factor.place(i, j)
        } else {
            factor.sink()
        }
    };
    let [a, b] = ends;
    Place {
        nodes,
        ends,
        entries: [entry(a, a), entry(b, b), entry(a, b)],
    }
}
