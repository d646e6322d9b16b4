//! States: the position of every switch together with a supply state. Here the two that size a
//! loom; every combination is a later step's.

use loom::Loom;

/// What the supply does.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum SupplyState {
    /// Key on, engine off: the battery alone.
    KeyOn,
    /// Engine running, alternator charging.
    Driving,
}

impl SupplyState {
    /// Its name in reports.
    pub fn word(self) -> &'static str {
        match self {
            Self::KeyOn => "engine off",
            Self::Driving => "driving",
        }
    }
}

/// The position of a circuit's switch.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Position {
    /// Off.
    Off,
    /// In the middle: with its signal.
    Middle,
    /// On.
    On,
}

/// A state to solve.
#[derive(Clone, Debug)]
pub struct State {
    /// Its name in reports: "driving, everything on".
    pub name: String,
    /// The supply.
    pub supply: SupplyState,
    /// By circuit.
    pub positions: Vec<Position>,
}

impl State {
    /// Whether a signal, by part, is there: some circuit that is on needs it, and none that is on
    /// is kept off by it.
    pub(crate) fn signal_on(&self, loom: &Loom, signal: loom::PartId) -> bool {
        loom.circuits
            .iter()
            .zip(&self.positions)
            .any(|(c, p)| match p {
                Position::Off => false,
                Position::Middle => c.middle == Some(signal),
                Position::On => c.only.contains(&signal),
            })
    }
}

/// The states that a loom is sized in: everything on, with the engine running (most volts, most
/// heat) and with the engine off (constant-power loads take most current).
pub(crate) fn to_try(loom: &Loom) -> Vec<State> {
    [SupplyState::Driving, SupplyState::KeyOn]
        .into_iter()
        .map(|supply| State {
            name: format!("{}, everything on", supply.word()),
            supply,
            positions: vec![Position::On; loom.circuits.len()],
        })
        .collect()
}
