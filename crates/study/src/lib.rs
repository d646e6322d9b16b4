//! `study`: from a loom to answers. Takes a [`loom::Loom`] and a [`stock::Stock`], sizes every wire
//! and fuse, solves currents and temperatures, and gives [`Answers`]: what was chosen and why, what
//! each wire, fuse and load sees, and the findings.
//!
//! Absent from this room: how any of it is shown, files, plans' text.

mod answers;
mod deck;
mod design;
mod ends;
mod finding;
mod fuse;
mod heat;
mod limits;
mod load;
mod network;
mod paths;
mod recalled;
mod settle;
mod size;
mod state;
mod switchgear;
mod why;

pub use answers::{Answers, FuseAnswer, LoadAnswer, PartAnswer, StateAnswer, WireAnswer};
pub use design::{Choice, FuseChoice, Habits};
pub use finding::{About, LIST};
pub use limits::{Limit, Limits};
pub use network::{Model, Piece};
pub use recalled::Recalled;
pub use settle::Settled;
pub use size::Verdict;
pub use state::{Position, State, SupplyState};

use design::Design;
use loom::Loom;
use stock::Stock;

/// Studies a loom: size it, solve it in its states, judge it.
pub fn study(loom: &Loom, stock: &Stock, habits: &Habits) -> Answers {
    let mut design = Design::new(loom, stock, habits);
    let states = state::to_try(loom);
    let settled = size::search(&mut design, &states);
    let mut answers = answers::gather(&design, states, settled);
    answers.findings = finding::all(&design, &answers);
    answers
}

/// Diameter of the bundle in a stretch, with the wires chosen.
pub fn bundle_diameter(
    loom: &Loom,
    stock: &Stock,
    choice: &Choice,
    stretch: loom::StretchId,
) -> quantity::Length {
    heat::diameter(loom, stock, choice, stretch)
}

/// The network of a studied state as a deck for a circuit simulator, so that anyone can check the
/// node voltages with another program.
pub fn deck(
    loom: &Loom,
    stock: &Stock,
    habits: &Habits,
    answers: &Answers,
    state: usize,
) -> Option<String> {
    let mut design = Design::new(loom, stock, habits);
    design.choice = answers.choice.clone();
    let answer = answers.states.get(state)?;
    Some(deck::write(&design, answer))
}
