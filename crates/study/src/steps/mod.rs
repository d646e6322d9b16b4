//! The order of the work, worked out from the loom: bench first, then the vehicle, power last. Each step says what to pick
//! up, what to do, with what, how to know that it is right, what can hurt, and what it brings that was not there before.
//!
//! | file | steps |
//! |---|---|
//! | `bench` | cut and label; grommets that must be on first; splices; ends; sleeves |
//! | `vehicle` | battery off; holes; the loom laid; ends that had to wait; earths, loads, relays and switches, boxes |
//! | `power` | proved dead, feeds, the battery on, fuses one by one |
//! | `waiting` | ends that can't be finished before they are through a panel |

mod bench;
mod power;
mod vehicle;
mod waiting;

#[cfg(test)]
mod tests;

use crate::answers::Answers;
use crate::lists::Lists;
use loom::{Loom, PlaceId};
use stock::Stock;

/// Where a step is done.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Stage {
    /// At the bench, with the loom board.
    Bench,
    /// At the vehicle, its battery off.
    Vehicle,
    /// At the vehicle, power coming on.
    Power,
}

impl Stage {
    /// Its heading.
    pub fn words(self) -> &'static str {
        match self {
            Self::Bench => "At the bench",
            Self::Vehicle => "At the vehicle, battery off",
            Self::Power => "Power on",
        }
    }
}

/// What a step is seen on.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Sight {
    /// The circuit diagram, as far as it has come.
    Circuit,
    /// The loom board.
    Board,
    /// The vehicle from above.
    Route,
}

/// One step.
#[derive(Clone, Debug)]
pub struct Step {
    /// Where.
    pub stage: Stage,
    /// What, in a few words.
    pub title: String,
    /// What to pick up.
    pub take: Vec<String>,
    /// What to do, in order.
    pub act: Vec<String>,
    /// With what.
    pub tools: Vec<&'static str>,
    /// How to know that it is right.
    pub checks: Vec<String>,
    /// What can hurt.
    pub cautions: Vec<&'static str>,
    /// Names of the wires and parts that it brings.
    pub brings: Vec<String>,
    /// What it is seen on.
    pub sight: Sight,
}

impl Step {
    fn new(stage: Stage, title: impl Into<String>) -> Self {
        Self {
            stage,
            title: title.into(),
            take: Vec::new(),
            act: Vec::new(),
            tools: Vec::new(),
            checks: Vec::new(),
            cautions: Vec::new(),
            brings: Vec::new(),
            sight: Sight::Circuit,
        }
    }
}

/// What steps are made of.
#[derive(Clone, Copy)]
struct Work<'a> {
    loom: &'a Loom,
    stock: &'a Stock,
    answers: &'a Answers,
    lists: &'a Lists,
}

impl Work<'_> {
    fn place(&self, id: PlaceId) -> &str {
        &self.loom.place(id).name
    }

    /// "battery tray – inner wing".
    fn between(&self, stretch: loom::StretchId) -> String {
        let ends = self.loom.stretch(stretch).ends;
        ends.map(|p| self.place(p)).join(" – ")
    }
}

/// All steps in their order.
pub fn steps(loom: &Loom, stock: &Stock, answers: &Answers, lists: &Lists) -> Vec<Step> {
    let w = Work {
        loom,
        stock,
        answers,
        lists,
    };
    let waiting = waiting::Waiting::new(w);
    let mut all = bench::steps(w, &waiting);
    all.extend(vehicle::steps(w, &waiting));
    all.extend(power::steps(w));
    all
}

/// Things counted, in the order in which they were first met.
#[derive(Default)]
struct Counted(Vec<(String, u32)>);

impl Counted {
    fn add(&mut self, what: String) {
        self.add_many(what, 1);
    }

    fn add_many(&mut self, what: String, count: u32) {
        match self.0.iter_mut().find(|(known, _)| *known == what) {
            Some((_, n)) => *n += count,
            None => self.0.push((what, count)),
        }
    }

    fn told(self) -> Vec<String> {
        let each = self.0.into_iter();
        each.map(|(what, n)| format!("{n} × {what}")).collect()
    }
}
