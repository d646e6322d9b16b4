//! A circuit as nodes and two-terminal elements, and its voltages and currents.
//!
//! Takes a [`Network`] of [`Law`]s, gives a [`Solution`] or says which node would not settle.
//! Kirchhoff's law at each node, `Σ i_e(v_a − v_b) = 0`, is solved by Newton's method. Every law
//! gives current from voltage alone, so the sums are the slope of one function of all voltages
//! (Millar's *content*, 1951), the matrix is symmetric, and a circuit rests where that function has
//! a valley: the matrix is positive definite there, and where it is not, the point found is one
//! that a real circuit would leave.
//!
//! | file | step |
//! |---|---|
//! | [`law`] | each element's current and slope from its voltage |
//! | [`inspect`](Network::inspect) | islands, loops without resistance, bad values: before any matrix |
//! | `joins` | zero-ohm elements: joined nodes share one unknown |
//! | `factor` | sparse matrix: symbolic once, numeric each pass |
//! | `shape` | which unknown and which matrix entry each element adds to |
//! | `state` | currents and imbalances at one set of voltages |
//! | `ladder` | what is tried, in order |
//! | [`solver`] | the whole walk, re-usable |
//! | [`ports`] | what a few changed resistances do, without factoring again |
//! | [`slopes`] | how readings move with every value, to first order |

mod factor;
mod inspect;
mod joins;
mod knobs;
mod ladder;
pub mod law;
pub mod ports;
mod shape;
pub mod slopes;
pub mod solver;
mod state;
#[cfg(test)]
mod tests;

pub use inspect::Flaw;
pub use knobs::Knobs;
pub use law::Law;
pub use ports::Ports;
pub use slopes::Slopes;
pub use solver::{Failure, Rung, Solution, Solver, solve};

/// A point that conductors meet at.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub struct Node(pub u32);

impl Node {
    /// The node that all voltages are measured from.
    pub const GROUND: Self = Self(0);

    /// Its place in [`Solution::volts`].
    pub fn index(self) -> usize {
        self.0 as usize
    }
}

/// An element, by the order it was added in.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub struct ElementId(pub u32);

impl ElementId {
    /// Its place in [`Solution::amps`].
    pub fn index(self) -> usize {
        self.0 as usize
    }
}

/// A law between two nodes; its current is positive from `a` to `b` through it.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Element {
    /// First terminal; the positive one of a supply.
    pub a: Node,
    /// Second terminal.
    pub b: Node,
    /// How current follows from voltage.
    pub law: Law,
}

/// A circuit. Only what is connected is in it: an open switch is left out by the caller.
#[derive(Clone, Debug, PartialEq)]
pub struct Network {
    nodes: u32,
    elements: Vec<Element>,
}

impl Default for Network {
    fn default() -> Self {
        Self::new()
    }
}

impl Network {
    /// A circuit of nothing but [`Node::GROUND`].
    pub fn new() -> Self {
        Self {
            nodes: 1,
            elements: Vec::new(),
        }
    }

    /// A new node.
    pub fn node(&mut self) -> Node {
        self.nodes += 1;
        Node(self.nodes - 1)
    }

    /// A new element between two nodes.
    pub fn element(&mut self, a: Node, b: Node, law: Law) -> ElementId {
        self.elements.push(Element { a, b, law });
        ElementId((self.elements.len() - 1) as u32)
    }

    /// Gives an element another law or other values; its terminals stay.
    pub fn set(&mut self, id: ElementId, law: Law) {
        self.elements[id.index()].law = law;
    }

    /// How many nodes there are, ground among them.
    pub fn nodes(&self) -> usize {
        self.nodes as usize
    }

    /// The elements in the order of their ids.
    pub fn elements(&self) -> &[Element] {
        &self.elements
    }

    /// One element.
    pub fn get(&self, id: ElementId) -> Element {
        self.elements[id.index()]
    }
}
