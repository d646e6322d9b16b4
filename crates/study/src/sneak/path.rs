//! The way of a current, as a person can follow it: from the battery through one thing after another, and
//! back. At each point the strongest current is followed.

use crate::network::{Model, Piece};
use crate::settle::Settled;

/// Which way current goes through a thing.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Direction {
    /// As it is meant to.
    Forwards,
    /// Against that.
    Backwards,
}

/// One step of a path.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Step {
    /// Through what.
    pub through: Piece,
    /// Which way.
    pub way: Direction,
}

/// The currents of a solved state.
pub(super) struct Flows<'a> {
    model: &'a Model,
}

impl<'a> Flows<'a> {
    /// Of a state whose network was kept.
    pub fn of(s: &'a Settled) -> Option<Self> {
        let model = s.model.as_ref().filter(|m| !m.amps.is_empty())?;
        Some(Self { model })
    }

    /// The way through a thing, from the battery out and back.
    pub fn path(&self, through: Piece) -> Vec<Step> {
        let Some(at) = self.model.elements.iter().position(|e| e.piece == through) else {
            return Vec::new();
        };
        let e = &self.model.elements[at];
        let (enters, leaves) = match self.model.amps[at] >= 0.0 {
            true => (e.a, e.b),
            false => (e.b, e.a),
        };
        let mut steps: Vec<usize> = self.follow(enters, -1.0);
        steps.reverse();
        steps.push(at);
        steps.extend(self.follow(leaves, 1.0));
        steps.into_iter().map(|i| self.step(i)).collect()
    }

    /// From a node along the strongest current, with it (1) or against it (−1), to a supply.
    fn follow(&self, from: usize, with: f64) -> Vec<usize> {
        let mut steps = Vec::new();
        let mut node = from;
        // A point is passed once: voltage only falls on the way.
        for _ in 0..self.model.nodes {
            if node == 0 && with > 0.0 {
                break;
            }
            let out = |i: &usize| {
                let e = &self.model.elements[*i];
                let leaving = if e.a == node {
                    self.model.amps[*i]
                } else {
                    -self.model.amps[*i]
                };
                leaving * with
            };
            let meeting = (0..self.model.elements.len()).filter(|i| {
                let e = &self.model.elements[*i];
                e.a == node || e.b == node
            });
            let Some(strongest) = meeting.max_by(|a, b| out(a).total_cmp(&out(b))) else {
                break;
            };
            if out(&strongest) <= 0.0 {
                break;
            }
            let e = &self.model.elements[strongest];
            if matches!(e.piece, Piece::Battery | Piece::Alternator) {
                break;
            }
            steps.push(strongest);
            node = if e.a == node { e.b } else { e.a };
        }
        steps
    }

    fn step(&self, element: usize) -> Step {
        Step {
            through: self.model.elements[element].piece,
            way: match self.model.amps[element] >= 0.0 {
                true => Direction::Forwards,
                false => Direction::Backwards,
            },
        }
    }
}
