//! The way of a current, as a person can follow it: from the battery through one thing after another, and
//! back. At each point the strongest current is followed.

use crate::network::{Model, Piece};
use crate::settle::Settled;
use loom::{PartId, WireId};

/// What a path is followed through.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Through {
    /// A load.
    Load(PartId),
    /// A relay's coil.
    Coil(PartId),
    /// The vehicle's own lamps on a signal.
    OwnLamp(PartId),
    /// A fuse.
    Fuse(PartId),
    /// A contact of a relay, a switch or a cut-out.
    Contact(PartId),
    /// The vehicle's wiring to a feed or a signal.
    Feed(PartId),
    /// What a cut-out draws for itself.
    Sense(PartId),
    /// An earth point, into the body.
    Earth(PartId),
    /// A wire.
    Wire(WireId),
}

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
    pub through: Through,
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
    pub fn path(&self, through: Through) -> Vec<Step> {
        let Some(at) = self
            .model
            .elements
            .iter()
            .position(|e| self.is(e.piece, through))
        else {
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
        steps.into_iter().filter_map(|i| self.step(i)).collect()
    }

    fn is(&self, piece: Piece, through: Through) -> bool {
        through_of(piece) == Some(through)
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

    fn step(&self, element: usize) -> Option<Step> {
        Some(Step {
            through: through_of(self.model.elements[element].piece)?,
            way: match self.model.amps[element] >= 0.0 {
                true => Direction::Forwards,
                false => Direction::Backwards,
            },
        })
    }
}

fn through_of(piece: Piece) -> Option<Through> {
    Some(match piece {
        Piece::Load(p) => Through::Load(p),
        Piece::Coil(p) => Through::Coil(p),
        Piece::OwnLamp(p) => Through::OwnLamp(p),
        Piece::Fuse(p) => Through::Fuse(p),
        Piece::Contact(p) => Through::Contact(p),
        Piece::Feed(p) => Through::Feed(p),
        Piece::Sense(p) => Through::Sense(p),
        Piece::Body(p) => Through::Earth(p),
        Piece::Wire(w) => Through::Wire(w),
        Piece::Mate(_)
        | Piece::Float
        | Piece::Chafe
        | Piece::Battery
        | Piece::Alternator
        | Piece::Vehicle
        | Piece::Spare(_) => {
            return None;
        }
    })
}
