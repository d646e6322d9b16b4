//! States: the position of every switch together with a supply state. Here the two that size a
//! loom; every combination is a later step's.

use loom::{Loom, PartId};

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
    /// On auto: with its signal.
    Auto,
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
    /// The vehicle's signals that are there.
    pub signals: Vec<PartId>,
}

impl State {
    /// Whether a circuit is asked to be on: its switch is, and the signals are as it wants them.
    pub fn asks(&self, loom: &Loom, circuit: usize) -> bool {
        let c = &loom.circuits[circuit];
        let there = |s: &PartId| self.signals.contains(s);
        let wanted = match self.positions[circuit] {
            Position::Off => false,
            Position::Auto => c.auto.as_ref().is_some_and(there),
            Position::On => true,
        };
        wanted && c.only.iter().all(there) && !c.unless.iter().any(there)
    }
}

/// The states that a loom is sized in: every switch on, with the engine running (most volts, most
/// heat) and with the engine off (constant-power loads take most current); the vehicle's signals as
/// each circuit wants them, for circuits that want them differently one after the other; and
/// three-position switches once on auto.
pub(crate) fn to_try(loom: &Loom) -> Vec<State> {
    let mut states = Vec::new();
    for supply in [SupplyState::Driving, SupplyState::KeyOn] {
        for (how, positions, signals) in cases(loom) {
            states.push(State {
                name: format!("{}, {how}", supply.word()),
                supply,
                positions,
                signals,
            });
        }
    }
    states
}

type Case = (String, Vec<Position>, Vec<PartId>);

fn cases(loom: &Loom) -> Vec<Case> {
    let of = |pick: fn(&loom::LoomCircuit) -> &[PartId]| {
        let mut all: Vec<PartId> = loom.circuits.iter().flat_map(pick).copied().collect();
        all.sort();
        all.dedup();
        all
    };
    let wanted = of(|c| &c.only);
    let barring = of(|c| &c.unless);
    let auto = of(|c| c.auto.as_slice());
    let all_on = vec![Position::On; loom.circuits.len()];
    let names = |list: &[PartId]| {
        let words: Vec<&str> = list.iter().map(|s| loom.part(*s).label.as_str()).collect();
        words.join(" and ")
    };
    let free: Vec<PartId> = wanted
        .iter()
        .copied()
        .filter(|s| !barring.contains(s))
        .collect();
    let mut cases = vec![("everything on".to_owned(), all_on.clone(), free.clone())];
    if !barring.is_empty() {
        let mut with = free.clone();
        with.extend(&barring);
        cases.push((
            format!("everything on, with {}", names(&barring)),
            all_on.clone(),
            with,
        ));
    }
    if !auto.is_empty() {
        let turned = loom.circuits.iter().map(|c| match c.auto {
            Some(_) => Position::Auto,
            None => Position::On,
        });
        let mut with = free;
        with.extend(auto.iter().filter(|s| !barring.contains(s)));
        cases.push((
            format!("with {}, switches on auto", names(&auto)),
            turned.collect(),
            with,
        ));
    }
    cases
}
