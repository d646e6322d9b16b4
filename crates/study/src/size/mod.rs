//! Sizing. The constraints say whether a conductor will do for a wire, each with its margin and its
//! source, one a file; the search tries conductors until every constraint holds. The two know
//! nothing of one another's inside, so that a better search can take this one's place.

pub(crate) mod conflict;
mod drop;
mod guard;
mod heat;
mod least;
mod optimum;
mod search;
mod table;

pub(crate) use drop::{as_load, lost, wire_loss};
pub(crate) use optimum::posed;
pub use optimum::{Cut, Kind, Need, Posed, Program, Row, Sizing, Step, Weighed};
pub(crate) use optimum::{best, nodes};
pub(crate) use search::rough;

use crate::design::Design;
use crate::settle::{self, Settled};
use crate::state::State;
use loom::WireId;
use rayon::prelude::*;
use stock::Conductor;

/// What one constraint says of a conductor for a wire.
#[derive(Clone, Debug, PartialEq)]
pub struct Verdict {
    /// Which rule: "heat", "table", "drop", "fuse", "least size".
    pub rule: &'static str,
    /// Part of the limit that is left; below zero the rule is broken.
    pub margin: f64,
    /// The figures, in a sentence.
    pub says: String,
    /// On whose word.
    pub source: String,
}

impl Verdict {
    /// Whether the rule holds.
    pub fn holds(&self) -> bool {
        self.margin >= -1e-9
    }
}

/// What a constraint looks at.
pub(crate) struct Case<'a> {
    pub design: &'a Design<'a>,
    /// The states, settled with the present choice.
    pub settled: &'a [Settled],
    pub wire: WireId,
    /// The conductor to judge: the chosen one, or another in its place.
    pub conductor: &'a Conductor,
    /// The search wants margins only: sentences are left empty.
    pub quiet: bool,
}

impl Case<'_> {
    /// A sentence, made only when somebody will read it.
    fn say(&self, words: impl FnOnce() -> String) -> String {
        if self.quiet { String::new() } else { words() }
    }

    /// Index of the wire.
    fn at(&self) -> usize {
        self.wire.0 as usize
    }

    /// The most current that the wire carries in any state, A.
    fn amps(&self) -> f64 {
        self.settled
            .iter()
            .map(|s| s.wire_amps[self.at()].abs())
            .fold(0.0, f64::max)
    }

    /// The steady current that heats the wire as its own does in a state, A.
    fn felt(&self, state: usize) -> f64 {
        let s = &self.settled[state];
        let (amps, felt) = (s.wire_amps[self.at()].abs(), s.heat.felt[self.at()]);
        // As found when the heat was worked out; a current looked at since then is felt in proportion.
        match s.heat.amps[self.at()] {
            found if found > 0.0 => felt * amps / found,
            _ => amps,
        }
    }

    /// Whether the conductor is the chosen one: then what was settled holds as it is.
    fn is_chosen(&self) -> bool {
        std::ptr::eq(self.conductor, self.design.conductor(self.wire))
    }

    /// Hottest it gets at a current that some state asks of it, felt as its own is, K.
    pub(crate) fn kelvin_at(&self, amps: f64) -> f64 {
        let each = (0..self.settled.len()).map(|i| {
            let now = self.settled[i].wire_amps[self.at()].abs();
            let felt = self.felt(i);
            // Where the state's own current is no less, the state has it right.
            let felt = if now > 0.0 && amps > now {
                felt * amps / now
            } else {
                felt
            };
            self.kelvin(i, felt)
        });
        each.fold(0.0, f64::max)
    }

    /// Hottest temperature of the conductor at these amperes, K. The bundle's heat is as settled; the
    /// wire's own rise is replaced by that of the judged conductor at the judged current.
    fn kelvin(&self, state: usize, amps: f64) -> f64 {
        let s = &self.settled[state];
        let d = self.design;
        let settled = s.heat.hottest[self.at()];
        let now = s.heat.felt[self.at()];
        if self.is_chosen() && (amps - now).abs() < 1e-9 {
            return settled;
        }
        let around = s.heat.around[self.at()];
        let own = crate::heat::alone(d, d.conductor(self.wire), now, around);
        settled - own + crate::heat::alone(d, self.conductor, amps, around)
    }
}

/// The states as they settle with what is chosen, each from an earlier settling if there is one.
fn settle_all(d: &Design, states: &[State], before: Option<&[Settled]>) -> Vec<Settled> {
    let each = states.par_iter().enumerate();
    each.map(|(i, state)| settle::settle(d, state, before.map(|b| &b[i])))
        .collect()
}

/// Every constraint, in the order in which a report names them.
const RULES: [fn(&Case) -> Option<Verdict>; 5] = [
    least::judge,
    table::judge,
    heat::judge,
    guard::judge,
    drop::judge,
];

/// What all constraints say of a conductor for a wire.
pub(crate) fn judge(case: &Case) -> Vec<Verdict> {
    RULES.iter().filter_map(|rule| rule(case)).collect()
}
