//! One pin to several: wires share the way as far as it is the same, and part at splices.

use super::Builder;
use super::run::Trace;
use super::ways::Way;
use crate::{PartKind, PinId, PlaceId};
use finding::Span;
use quantity::Length;

/// A pin to be reached, with the length of its own lead.
#[derive(Clone, Copy, Debug)]
pub(super) struct Leaf {
    pub pin: PinId,
    pub place: PlaceId,
    pub tail: Length,
    pub span: Span,
}

/// Which way current runs in a tree.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Flow {
    /// From the root to the leaves: a supply.
    Out,
    /// From the leaves to the root: an earth.
    Back,
}

/// Where ways part: what lies beyond one place.
#[derive(Default)]
struct Branch {
    leaves: Vec<Leaf>,
    onward: Vec<(PlaceId, Branch)>,
}

impl Branch {
    /// Puts a leaf at the end of its way from here.
    fn plant(&mut self, places: &[PlaceId], leaf: Leaf) {
        let Some((next, rest)) = places.split_first() else {
            self.leaves.push(leaf);
            return;
        };
        let at = match self.onward.iter().position(|(p, _)| p == next) {
            Some(at) => at,
            None => {
                self.onward.push((*next, Self::default()));
                self.onward.len() - 1
            }
        };
        self.onward[at].1.plant(rest, leaf);
    }

    fn items(&self) -> usize {
        self.leaves.len() + self.onward.len()
    }
}

impl Builder<'_> {
    /// Joins `root` to every leaf.
    pub(super) fn tree(&mut self, root: PinId, leaves: &[Leaf], flow: Flow, trace: Trace) {
        let home = self.loom.part_of(root).place;
        let mut branch = Branch::default();
        for leaf in leaves {
            if let Some(way) = self.way(home, leaf.place, leaf.span) {
                branch.plant(&way.places[1..], *leaf);
            }
        }
        // A stud takes several rings; any other pin takes one wire, so a splice goes before it.
        let stud = matches!(
            self.loom.part_of(root).kind,
            PartKind::Earth(_) | PartKind::Battery { .. } | PartKind::Box(_)
        );
        if stud {
            self.part_ways(root, &branch, home, (flow, trace));
        } else {
            self.grow(root, &branch, vec![home], (flow, trace));
        }
    }

    /// Follows a branch from `from`, along the places passed since.
    fn grow(&mut self, from: PinId, branch: &Branch, passed: Vec<PlaceId>, how: (Flow, Trace)) {
        let here = passed[passed.len() - 1];
        match (branch.items(), branch.onward.first()) {
            (0, _) => {}
            (1, Some((next, beyond))) => {
                let mut passed = passed;
                passed.push(*next);
                self.grow(from, beyond, passed, how);
            }
            (1, None) => self.leg(
                from,
                branch.leaves[0].pin,
                &passed,
                branch.leaves[0].tail,
                how,
            ),
            _ => {
                let splice = self.splice(here, how.1);
                self.leg(from, splice, &passed, quantity::metres(0.0), how);
                self.part_ways(splice, branch, here, how);
            }
        }
    }

    /// From one pin, a wire for every leaf here and every way onward.
    fn part_ways(&mut self, from: PinId, branch: &Branch, here: PlaceId, how: (Flow, Trace)) {
        for leaf in &branch.leaves {
            self.leg(from, leaf.pin, &[here], leaf.tail, how);
        }
        for (next, beyond) in &branch.onward {
            self.grow(from, beyond, vec![here, *next], how);
        }
    }

    /// One leg of the tree, in the direction of its current.
    fn leg(
        &mut self,
        near: PinId,
        far: PinId,
        places: &[PlaceId],
        tail: Length,
        (flow, trace): (Flow, Trace),
    ) {
        let mut places = places.to_vec();
        let stretches = places
            .windows(2)
            .filter_map(|p| self.ways.between(p[0], p[1]))
            .collect();
        let mut way = Way {
            places: std::mem::take(&mut places),
            stretches,
        };
        if flow == Flow::Out {
            self.run_along(near, far, &way, tail, trace);
        } else {
            way.places.reverse();
            way.stretches.reverse();
            self.run_along(far, near, &way, tail, trace);
        }
    }

    fn splice(&mut self, place: PlaceId, trace: Trace) -> PinId {
        let name = self.next_name(trace.number, "X");
        let span = trace
            .circuit
            .map_or(Span::default(), |c| self.plan.circuits[c].name.span);
        let at = self.loom.place(place).name.clone();
        let part = self.add_part(
            name,
            format!("splice at {at}"),
            PartKind::Splice,
            (place, trace.circuit, span),
        );
        self.add_pin(part, "1")
    }
}
