//! Looks beside the states that are tried, and what came of those that gave no answer: a state at another charge,
//! with something lost, with a wire on the body.

use crate::lost::Lost;
use crate::relays::Flip;
use crate::settle::Settled;
use crate::state::State;
use loom::{Loom, PartId, PinId};
use quantity::figures;

/// What is otherwise than in the state itself.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Beside {
    /// The charge of the battery, 0 to 1.
    Charge(f64),
    /// Something is lost.
    Lost(Lost),
    /// The wire at this pin touches the body.
    Chafed(PinId),
}

/// What to do about a network that can't be solved.
pub const UNSOLVED_MEND: &str = "a load may ask for more power than its wires can pass: check its rating, its length and the wire sizes set by hand";

/// Why a look gave no answer.
#[derive(Clone, Debug, PartialEq)]
pub enum Trouble {
    /// Relays or cut-outs go round in this circle.
    Restless(Vec<Flip>),
    /// The network could not be solved.
    Unsolved(String),
}

/// A look that gave no answer.
#[derive(Clone, Debug, PartialEq)]
pub struct Amiss {
    /// Name of the state.
    pub state: String,
    /// What is otherwise in it.
    pub beside: Beside,
    /// Why.
    pub trouble: Trouble,
}

impl Amiss {
    /// Of a look, if it gave no answer.
    pub(crate) fn of(state: &State, beside: Beside, s: &Settled) -> Option<Self> {
        let trouble = match &s.failure {
            Some(why) => Trouble::Unsolved(why.clone()),
            None if !s.chatter.is_empty() => Trouble::Restless(s.chatter.clone()),
            None => return None,
        };
        Some(Self {
            state: state.name.clone(),
            beside,
            trouble,
        })
    }

    /// Whether it has to do with this relay or cut-out.
    pub(crate) fn concerns(&self, part: PartId) -> bool {
        match &self.trouble {
            Trouble::Restless(round) => round.iter().any(|f| f.part == part),
            Trouble::Unsolved(_) => true,
        }
    }

    /// Where it was: "“everything on, parked” with the battery at 40 %".
    pub fn at(&self, loom: &Loom) -> String {
        let beside = match self.beside {
            Beside::Charge(c) => format!("with the battery at {} %", figures(c * 100.0, 3)),
            Beside::Lost(lost) => lost.says(loom),
            Beside::Chafed(pin) => format!("with {} touching the body", loom.pin_name(pin)),
        };
        format!("“{}” {beside}", self.state)
    }

    /// In a sentence.
    pub fn says(&self, loom: &Loom) -> String {
        let at = self.at(loom);
        match &self.trouble {
            Trouble::Restless(_) => format!("{at} comes to no rest"),
            Trouble::Unsolved(why) => format!("{at} has no steady answer: {why}"),
        }
    }
}
