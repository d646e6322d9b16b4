//! Shortest ways over the stretches. Lengths are compared in whole tenths of a millimetre, so that equal ways
//! tie exactly and the earlier stretch of the plan wins.

use crate::{PlaceId, StretchId};
use petgraph::algo::dijkstra;
use petgraph::graph::{NodeIndex, UnGraph};
use petgraph::visit::EdgeRef;
use plan::Plan;
use quantity::Quantity;

/// The places and the stretches between them.
pub(super) struct Ways {
    graph: UnGraph<(), (StretchId, u64)>,
}

/// A way from one place to another.
#[derive(Clone, Debug, Default)]
pub(super) struct Way {
    pub places: Vec<PlaceId>,
    pub stretches: Vec<StretchId>,
}

impl Ways {
    pub(super) fn new(plan: &Plan) -> Self {
        let mut graph = UnGraph::default();
        for _ in &plan.places {
            graph.add_node(());
        }
        let node = |name: &str| {
            let at = plan.places.iter().position(|p| p.name.value == name);
            NodeIndex::new(at.unwrap_or(0))
        };
        for (i, s) in plan.stretches.iter().enumerate() {
            let tenths = (s.length.si() * 1e4).round() as u64;
            graph.add_edge(
                node(&s.between[0].value),
                node(&s.between[1].value),
                (StretchId(i as u32), tenths),
            );
        }
        Self { graph }
    }

    /// The shortest way, if there is any.
    pub(super) fn shortest(&self, from: PlaceId, to: PlaceId) -> Option<Way> {
        let start = NodeIndex::new(from.0 as usize);
        let cost = dijkstra(&self.graph, start, None, |e| e.weight().1);
        let mut here = NodeIndex::new(to.0 as usize);
        let mut way = Way {
            places: vec![to],
            stretches: Vec::new(),
        };
        while here != start {
            let reached = *cost.get(&here)?;
            // Of all neighbours that lie on a shortest way, take the plan's earliest stretch.
            let (stretch, before) = self
                .graph
                .edges(here)
                .filter_map(|e| {
                    let other = if e.source() == here {
                        e.target()
                    } else {
                        e.source()
                    };
                    let (stretch, length) = *e.weight();
                    (cost.get(&other)? + length == reached).then_some((stretch, other))
                })
                .min_by_key(|(s, _)| *s)?;
            way.stretches.push(stretch);
            way.places.push(PlaceId(before.index() as u32));
            here = before;
        }
        way.places.reverse();
        way.stretches.reverse();
        Some(way)
    }

    /// The stretch that joins two neighbouring places.
    pub(super) fn between(&self, a: PlaceId, b: PlaceId) -> Option<StretchId> {
        let edge = self
            .graph
            .find_edge(NodeIndex::new(a.0 as usize), NodeIndex::new(b.0 as usize))?;
        self.graph.edge_weight(edge).map(|(s, _)| *s)
    }

    /// A circle in the stretches, as places, if there is one: there the loom has a choice of way.
    pub(super) fn circle(&self) -> Option<Vec<PlaceId>> {
        let mut joined = petgraph::unionfind::UnionFind::<usize>::new(self.graph.node_count());
        let mut tree = UnGraph::<(), ()>::default();
        for _ in self.graph.node_indices() {
            tree.add_node(());
        }
        for e in self.graph.edge_references() {
            let (a, b) = (e.source(), e.target());
            if joined.union(a.index(), b.index()) {
                tree.add_edge(a, b, ());
                continue;
            }
            let (_, path) = petgraph::algo::astar(&tree, a, |n| n == b, |_| 1u32, |_| 0)?;
            return Some(
                path.into_iter()
                    .map(|n| PlaceId(n.index() as u32))
                    .collect(),
            );
        }
        None
    }
}
