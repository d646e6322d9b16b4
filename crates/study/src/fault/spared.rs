//! What need not be tried: a touch between two that end alike, and a short with the engine off that opens at once
//! with it running.

use super::Case;
use super::judge::Outcome;
use super::look::look;
use super::trial::{Tried, felt};
use crate::answers::Answers;
use crate::design::Design;
use loom::{PartId, WireId};
use quantity::Quantity;

/// A change that ended mildly: its fuse opened at once, or nothing was loaded.
struct Mild {
    change: usize,
    /// The fuse that opened, and what it felt at first, A.
    opened: Option<(PartId, f64)>,
}

/// How a case ended in a state, if mildly with every change that was tried.
#[derive(Default)]
pub(super) struct AllMild(Option<Vec<Mild>>);

impl AllMild {
    /// Nothing tried yet in a state.
    pub(super) fn none_yet() -> Self {
        Self(Some(Vec::new()))
    }

    /// Notes how a change ended.
    pub(super) fn note(&mut self, d: &Design, change: usize, tried: &Tried) {
        let opened = tried.trial.opens.filter(|_| mild(d, tried));
        let fits = tried.trial.cool || opened.is_some();
        let mild = Mild {
            change,
            opened: opened.map(|fuse| (fuse, tried.rush)),
        };
        match (&mut self.0, fits) {
            (Some(all), true) => all.push(mild),
            _ => self.0 = None,
        }
    }

    /// Whether another state, alike but that the engine is off, ends as mildly: each fuse still feels nearly what it did.
    pub(super) fn covers(&self, d: &Design, answers: &Answers, case: &Case, state: usize) -> bool {
        let Some(all) = self.0.as_ref().filter(|all| !all.is_empty()) else {
            return false;
        };
        let answer = &answers.states[state];
        let near = (&answers.heat, &answer.settled);
        all.iter().all(|mild| {
            let Some((fuse, rush)) = mild.opened else {
                return true;
            };
            let now = look(d, &answer.state, case.changes[mild.change], near).settled;
            now.rests() && felt(&now, fuse) >= LEAST_PART * rush
        })
    }
}

/// The part of its current that a fuse must still feel. A blade that opened within its gate at 600 % opens on this much of
/// it within 0.3 s, on less than one and a half times the I²t: a wire that stayed below its class temperature then stays far
/// below what harms it.
const LEAST_PART: f64 = 0.7;

/// Opened within the last gate of a blade, with no wire above its class temperature and no other fuse sooner.
fn mild(d: &Design, tried: &Tried) -> bool {
    let trial = &tried.trial;
    let class = |w: WireId| d.insulation(d.conductor(w)).limit.si() - 273.15;
    let within = trial
        .peak
        .is_none_or(|(wire, celsius)| celsius <= class(wire));
    let soon = trial.seconds.is_some_and(|s| s <= MILD_S);
    trial.outcome == Outcome::Opens && trial.sooner.is_empty() && soon && within && tried.rush > 0.0
}

/// The last gate of a blade fuse, s.
const MILD_S: f64 = 0.1;

/// Two ends of a range that end alike, and about as soon: what lies between does too.
pub(super) fn alike(ends: &[(Outcome, f64)]) -> bool {
    let [(least, soon), (most, late)] = ends else {
        return false;
    };
    least == most && (soon.max(*late) < QUICK_S || (soon / late).max(late / soon) < SOON)
}

/// Where both ends are over sooner than this, s, what lies between is over in seconds at most. Our own, no source; on the
/// examples, trying all three ends alike.
const QUICK_S: f64 = 0.5;
/// Times that differ by less than this many times are about the same. Our own, no source.
const SOON: f64 = 2.0;
