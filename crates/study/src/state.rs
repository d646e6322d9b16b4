//! A state: the position of every switch together with a supply state and the signals that are
//! there. Which states are tried is `combine`'s.

use finding::joined;
use loom::{Loom, PartId};
use plan::SupplyState;

/// The position of a circuit's switch.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Position {
    /// Off.
    Off,
    /// On auto: with its signal.
    Auto,
    /// On.
    On,
}

/// A state to solve.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct State {
    /// Its name in reports: "driving, everything on".
    pub name: String,
    /// The supply.
    pub supply: SupplyState,
    /// By circuit; a circuit without a switch is always on.
    pub positions: Vec<Position>,
    /// The vehicle's signals that are there, in the loom's order.
    pub signals: Vec<PartId>,
}

impl State {
    /// A state, named for what it is.
    pub(crate) fn new(
        loom: &Loom,
        supply: SupplyState,
        positions: Vec<Position>,
        mut signals: Vec<PartId>,
    ) -> Self {
        signals.sort();
        signals.dedup();
        Self {
            name: named(loom, supply, &positions, &signals),
            supply,
            positions,
            signals,
        }
    }

    /// Whether a circuit is asked to be on: its switch is, its supply is live, and the signals are as
    /// it wants them.
    pub fn asks(&self, loom: &Loom, circuit: usize) -> bool {
        let c = &loom.circuits[circuit];
        let there = |s: &PartId| self.signals.contains(s);
        let wanted = match self.positions[circuit] {
            Position::Off => false,
            Position::Auto => c.auto.as_ref().is_some_and(there),
            Position::On => true,
        };
        let needs_key = match self.positions[circuit] {
            Position::Auto => c.ignition_on_auto,
            _ => c.ignition,
        };
        let live = self.supply.ignition() || !needs_key;
        wanted && live && c.only.iter().all(there) && !c.unless.iter().any(there)
    }

    /// How many circuits with a switch are not off.
    pub(crate) fn turned_on(&self, loom: &Loom) -> usize {
        let on =
            |(c, p): &(&loom::LoomCircuit, &Position)| c.switch.is_some() && **p != Position::Off;
        loom.circuits.iter().zip(&self.positions).filter(on).count()
    }
}

/// The name of a state: what the supply does, what is on, what the vehicle tells.
fn named(loom: &Loom, supply: SupplyState, positions: &[Position], signals: &[PartId]) -> String {
    let mut name = format!("{}, {}", supply.word(), turned(loom, positions));
    let labels: Vec<&str> = signals
        .iter()
        .map(|s| loom.part(*s).label.as_str())
        .collect();
    if !labels.is_empty() {
        name += &format!(", with {}", joined(&labels));
    }
    name
}

fn turned(loom: &Loom, positions: &[Position]) -> String {
    let switched: Vec<(&str, Position)> = loom
        .circuits
        .iter()
        .zip(positions)
        .filter(|(c, _)| c.switch.is_some())
        .map(|(c, p)| (c.name.as_str(), *p))
        .collect();
    let of = |wanted: Position| -> Vec<&str> {
        let with = switched.iter().filter(|(_, p)| *p == wanted);
        with.map(|(name, _)| *name).collect()
    };
    let (on, auto, off) = (of(Position::On), of(Position::Auto), of(Position::Off));
    let auto_words = |list: &[&str]| format!("{} on auto", joined(list));
    match (on.len(), auto.len(), off.len()) {
        (_, 0, 0) => "everything on".to_owned(),
        (0, 0, _) => "switches off".to_owned(),
        (_, 0, 1) if on.len() > 2 => format!("everything on but {}", off[0]),
        (_, 0, _) => format!("{} on", joined(&on)),
        (0, _, 0) => "switches on auto".to_owned(),
        (_, _, 0) if on.len() > 2 => format!("{}, everything else on", auto_words(&auto)),
        (0, _, _) => auto_words(&auto),
        _ => format!("{} on, {}", joined(&on), auto_words(&auto)),
    }
}
