//! The part of a network that stays while its values change: unknowns, matrix places, joined trees.

use super::factor::Factor;
use super::joins::Joins;
use super::law::Tie;
use super::{Flaw, Network, Node};

/// What an element adds to.
#[derive(Clone, Copy, Debug)]
pub(super) struct Place {
    /// Unknown of each terminal, if it has one.
    pub(super) ends: [Option<u32>; 2],
    /// Matrix entries: of `a`, of `b`, and between them.
    pub(super) entries: [Option<usize>; 3],
}

/// A network's shape, and what was worked out from it.
pub(super) struct Shape {
    /// What the shape was made from, to know it again.
    key: (u32, Vec<(Node, Node, Tie)>),
    pub(super) joins: Joins,
    /// Unknown of each node; none for those joined to ground.
    pub(super) unknowns: Vec<Option<u32>>,
    pub(super) places: Vec<Place>,
    pub(super) count: usize,
}

impl Shape {
    /// Works a shape out, unless the network has flaws.
    pub(super) fn new(network: &Network) -> Result<(Self, Factor), Vec<Flaw>> {
        network.inspect()?;
        let joins = Joins::find(network).0;
        let (unknowns, count) = number(&joins.roots);
        let ends: Vec<[Option<u32>; 2]> = network
            .elements()
            .iter()
            .map(|element| [element.a, element.b].map(|node| unknowns[node.index()]))
            .collect();
        let conducts: Vec<bool> = network
            .elements()
            .iter()
            .map(|element| matches!(element.law.tie(), Tie::Conducts))
            .collect();
        let pairs: Vec<(u32, u32)> = ends
            .iter()
            .zip(&conducts)
            .filter_map(|(ends, &conducts)| conducts.then_some((ends[0]?, ends[1]?)))
            .filter(|(a, b)| a != b)
            .collect();
        let factor = Factor::new(count.max(1) as usize, &pairs);
        let places = ends
            .iter()
            .zip(&conducts)
            .map(|(&ends, &conducts)| place(ends, conducts, &factor))
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

/// An unknown for each root but ground, in rising order, and how many.
fn number(roots: &[Node]) -> (Vec<Option<u32>>, u32) {
    let mut unknowns: Vec<Option<u32>> = Vec::with_capacity(roots.len());
    let mut count = 0;
    for (node, root) in roots.iter().enumerate() {
        // A root has the lowest number of its tree, so its unknown is there already.
        unknowns.push(if *root == Node::GROUND {
            None
        } else if root.index() < node {
            unknowns[root.index()]
        } else {
            count += 1;
            Some(count - 1)
        });
    }
    (unknowns, count)
}

fn key(network: &Network) -> (u32, Vec<(Node, Node, Tie)>) {
    let elements = network.elements().iter();
    let ties = elements.map(|element| (element.a, element.b, element.law.tie()));
    (network.nodes, ties.collect())
}

fn place(ends: [Option<u32>; 2], conducts: bool, factor: &Factor) -> Place {
    // An element across one unknown drives no current through the rest.
    if !conducts || ends[0] == ends[1] {
        return Place {
            ends,
            entries: [None; 3],
        };
    }
    let entry = |i: Option<u32>, j: Option<u32>| Some(factor.place(i?, j?));
    let entries = [
        entry(ends[0], ends[0]),
        entry(ends[1], ends[1]),
        entry(ends[0], ends[1]),
    ];
    Place { ends, entries }
}
