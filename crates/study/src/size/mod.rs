//! Sizing. The constraints say whether a conductor will do for a wire, each with its margin and its
//! source, one a file; the search tries conductors until every constraint holds. The two know
//! nothing of one another's inside, so that a better search can take this one's place.

mod drop;
mod guard;
mod heat;
mod least;
mod search;
mod table;

pub(crate) use drop::{as_load, lost, wire_loss};
pub(crate) use search::search;

use crate::design::Design;
use crate::settle::Settled;
use loom::WireId;
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

    /// Whether the conductor is the chosen one: then what was settled holds as it is.
    fn is_chosen(&self) -> bool {
        std::ptr::eq(self.conductor, self.design.conductor(self.wire))
    }

    /// Hottest temperature of the conductor at these amperes, K. The bundle's heat is as settled; the
    /// wire's own rise is replaced by that of the judged conductor at the judged current.
    fn kelvin(&self, state: usize, amps: f64) -> f64 {
        let s = &self.settled[state];
        let d = self.design;
        let settled = s.hottest_k[self.at()];
        let now = s.wire_amps[self.at()].abs();
        if self.is_chosen() && (amps - now).abs() < 1e-9 {
            return settled;
        }
        let around = s.around_k[self.at()];
        let own = crate::heat::alone(d, d.conductor(self.wire), now, around);
        settled - own + crate::heat::alone(d, self.conductor, amps, around)
    }
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
