//! What is wrong with a network before any matrix is made. Takes a network, gives all its flaws.

use super::joins::Joins;
use super::law::Tie;
use super::{ElementId, Law, Network, Node};
use std::fmt;

/// Something that leaves a network without one answer.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Flaw {
    /// These nodes have no conducting path to ground, so their voltages could be anything.
    Floating {
        /// One island, in rising order.
        nodes: Vec<Node>,
    },
    /// This element closes a loop without resistance, so its current could be anything.
    ZeroLoop {
        /// The element that closes the loop.
        element: ElementId,
        /// Its first terminal.
        a: Node,
        /// Its second terminal.
        b: Node,
    },
    /// A value that the element's law has no meaning for.
    BadValue {
        /// The element.
        element: ElementId,
    },
    /// An element on a node that the network does not have.
    NoSuchNode {
        /// The element.
        element: ElementId,
        /// The node it names.
        node: Node,
    },
}

impl fmt::Display for Flaw {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Floating { nodes } => {
                let first = nodes.first().map_or(0, |node| node.0);
                write!(
                    f,
                    "{} nodes from node {first} have no path to ground",
                    nodes.len()
                )
            }
            Self::ZeroLoop { element, a, b } => {
                let (id, a, b) = (element.0, a.0, b.0);
                write!(
                    f,
                    "element {id} (node {a} to {b}) closes a loop without resistance"
                )
            }
            Self::BadValue { element } => write!(f, "element {} has a bad value", element.0),
            Self::NoSuchNode { element, node } => {
                write!(
                    f,
                    "element {} is on node {}, which is not there",
                    element.0, node.0
                )
            }
        }
    }
}

impl Network {
    /// Looks for everything that would leave the circuit without one answer.
    pub fn inspect(&self) -> Result<(), Vec<Flaw>> {
        let mut flaws = self.bad_values();
        let strays = self.strays();
        // Nothing past this point may meet a node that is not there.
        if !strays.is_empty() {
            flaws.extend(strays);
            return Err(flaws);
        }
        flaws.extend(Joins::find(self).1);
        flaws.extend(
            self.islands()
                .into_iter()
                .map(|nodes| Flaw::Floating { nodes }),
        );
        if flaws.is_empty() { Ok(()) } else { Err(flaws) }
    }

    /// Groups of nodes without a conducting path to ground, each in rising order.
    pub fn islands(&self) -> Vec<Vec<Node>> {
        let mut head: Vec<u32> = (0..self.nodes).collect();
        for element in &self.elements {
            if !matches!(element.law.tie(), Tie::Blind) {
                let (a, b) = (find(&mut head, element.a.0), find(&mut head, element.b.0));
                // The lower number leads, so that ground leads its own island.
                head[a.max(b) as usize] = a.min(b);
            }
        }
        let mut groups: Vec<Vec<Node>> = vec![Vec::new(); self.nodes()];
        for node in 0..self.nodes {
            groups[find(&mut head, node) as usize].push(Node(node));
        }
        groups
            .into_iter()
            .skip(1)
            .filter(|group| !group.is_empty())
            .collect()
    }

    /// Ties the first node of each island to ground and gives those islands. An island that
    /// touches nothing carries no current over its one tie, so no current anywhere changes; the
    /// voltages given for its nodes mean nothing against ground.
    pub fn tie_islands(&mut self) -> Vec<Vec<Node>> {
        let islands = self.islands();
        for island in &islands {
            self.element(island[0], Node::GROUND, Law::Resistor { ohms: 0.0 });
        }
        islands
    }

    /// Elements whose values their law has no meaning for.
    pub(super) fn bad_values(&self) -> Vec<Flaw> {
        let bad = |(index, element): (usize, &super::Element)| {
            let element_id = ElementId(index as u32);
            (!element.law.is_sound()).then_some(Flaw::BadValue {
                element: element_id,
            })
        };
        self.elements.iter().enumerate().filter_map(bad).collect()
    }

    fn strays(&self) -> Vec<Flaw> {
        let mut strays = Vec::new();
        for (index, element) in self.elements.iter().enumerate() {
            for node in [element.a, element.b] {
                if node.0 >= self.nodes {
                    strays.push(Flaw::NoSuchNode {
                        element: ElementId(index as u32),
                        node,
                    });
                }
            }
        }
        strays
    }
}

/// The head of a node's group, shortening the path on the way.
fn find(head: &mut [u32], mut node: u32) -> u32 {
    while head[node as usize] != node {
        head[node as usize] = head[head[node as usize] as usize];
        node = head[node as usize];
    }
    node
}

#[cfg(test)]
mod tests {
    use super::*;

    fn ohms(ohms: f64) -> Law {
        Law::Resistor { ohms }
    }

    #[test]
    fn an_island_is_named_and_can_be_tied() {
        let mut net = Network::new();
        let [a, b, c] = [net.node(), net.node(), net.node()];
        net.element(
            a,
            Node::GROUND,
            Law::Source {
                volts: 12.0,
                ohms: 0.01,
            },
        );
        net.element(b, c, ohms(1.0));
        net.element(b, Node::GROUND, Law::Open);
        assert_eq!(
            net.inspect(),
            Err(vec![Flaw::Floating { nodes: vec![b, c] }])
        );
        net.tie_islands();
        assert_eq!(net.inspect(), Ok(()));
    }

    #[test]
    fn a_current_source_is_no_path() {
        let mut net = Network::new();
        let a = net.node();
        net.element(a, Node::GROUND, Law::Current { amps: 1.0 });
        assert!(net.inspect().is_err());
    }

    #[test]
    fn two_perfect_sources_in_parallel_are_a_loop() {
        let mut net = Network::new();
        let a = net.node();
        let perfect = Law::Source {
            volts: 12.0,
            ohms: 0.0,
        };
        net.element(a, Node::GROUND, perfect);
        assert_eq!(net.inspect(), Ok(()));
        let second = net.element(a, Node::GROUND, perfect);
        let flaw = Flaw::ZeroLoop {
            element: second,
            a,
            b: Node::GROUND,
        };
        assert_eq!(net.inspect(), Err(vec![flaw]));
    }

    #[test]
    fn bad_values_and_strange_nodes_are_named() {
        let mut net = Network::new();
        let a = net.node();
        let bad = net.element(a, Node::GROUND, ohms(f64::NAN));
        net.element(a, Node::GROUND, ohms(1.0));
        assert_eq!(net.inspect(), Err(vec![Flaw::BadValue { element: bad }]));
        let stray = net.element(a, Node(9), ohms(1.0));
        let flaws = net.inspect().unwrap_err();
        assert!(flaws.contains(&Flaw::NoSuchNode {
            element: stray,
            node: Node(9)
        }));
    }
}
