//! Every fault tried, in every state that matters to it, and one of them in detail.

use super::judge::Outcome;
use super::spared::{AllMild, alike};
use super::states::{self, Chosen};
use super::timed::Moment;
use super::trial::{Trial, keep_worst, one};
use super::{Case, kind};
use crate::answers::Answers;
use crate::design::{Design, Habits};
use crate::state::State;
use loom::{Loom, PartId};
use rayon::prelude::*;
use stock::Stock;

/// Every fault.
#[derive(Clone, Debug)]
pub struct Tries {
    /// What was tried.
    pub cases: Vec<Case>,
    /// By case: its worst trial; none where no state that matters came to rest.
    pub worst: Vec<Option<Trial>>,
    /// How many were looked at: faults, each in its states, each with its contact resistances.
    pub tried: usize,
    /// How many more are the same to the circuit, or the same in another state.
    pub collapsed: usize,
}

impl Tries {
    /// Trials by outcome, the worst first; within one in the order of the kinds.
    pub fn by_outcome(&self) -> Vec<&Trial> {
        let mut all: Vec<&Trial> = self.worst.iter().flatten().collect();
        all.sort_by_key(|t| (t.outcome, t.case));
        all
    }
}

/// One trial with its moments.
#[derive(Clone, Debug)]
pub struct Detail {
    /// The case.
    pub case: Case,
    /// The trial; its `case` is 0.
    pub trial: Trial,
    /// What happened, moment by moment.
    pub moments: Vec<Moment>,
}

/// What can go wrong: every case of every kind.
pub fn cases(loom: &Loom, stock: &Stock, habits: &Habits, answers: &Answers) -> Vec<Case> {
    kind::all(&Design::answered(loom, stock, habits, answers)).0
}

/// Which faults are tried, and where.
pub struct Asked<'a> {
    /// Of all cases, these.
    pub cases: &'a dyn Fn(&Case) -> bool,
    /// In this state alone, index into the answers' states, whether or not it is among those that matter.
    pub state: Option<usize>,
}

impl Asked<'_> {
    /// Every fault, in every state that matters to it.
    pub const ALL: Asked<'static> = Asked {
        cases: &|_| true,
        state: None,
    };
}

/// Tries what is asked for. `told` hears how many cases are done, of how many.
pub fn tries(
    (loom, stock): (&Loom, &Stock),
    habits: &Habits,
    answers: &Answers,
    asked: &Asked,
    told: &(dyn Fn(usize, usize) + Sync),
) -> Tries {
    let d = Design::answered(loom, stock, habits, answers);
    let (mut cases, alike) = kind::all(&d);
    cases.retain(asked.cases);
    let rests = resting(answers, asked.state);
    let state = asked.state;
    let done = std::sync::atomic::AtomicUsize::new(0);
    let all: Vec<(Option<Trial>, usize)> = cases
        .par_iter()
        .enumerate()
        .map(|(index, case)| {
            let states = match state {
                Some(_) => rests.iter().map(|r| Chosen::alone(r.0)).collect(),
                None => states::matter(&d, case, &rests, answers),
            };
            let found = worst(&d, answers, (index, case), states);
            let n = 1 + done.fetch_add(1, std::sync::atomic::Ordering::Relaxed);
            told(n, cases.len());
            found
        })
        .collect();
    let tried = all.iter().map(|(_, n)| n).sum();
    let changes: usize = cases.iter().map(|c| c.changes.len()).sum();
    Tries {
        collapsed: ((changes + alike) * rests.len()).saturating_sub(tried),
        worst: all.into_iter().map(|(trial, _)| trial).collect(),
        tried,
        cases,
    }
}

/// States that can be tried in: all, or the one that is asked for.
fn resting(answers: &Answers, asked: Option<usize>) -> Vec<(usize, &State)> {
    let each = answers.states.iter().enumerate();
    each.filter(|(i, s)| s.settled.rests() && asked.is_none_or(|a| a == *i))
        .map(|(i, s)| (i, &s.state))
        .collect()
}

/// A case in its states, and how many trials that took.
fn worst(
    d: &Design,
    answers: &Answers,
    (index, case): (usize, &Case),
    states: Vec<Chosen>,
) -> (Option<Trial>, usize) {
    let swapped = case.swapped.and_then(|fuse| with_larger(d, answers, fuse));
    let d = swapped.as_ref().unwrap_or(d);
    let mut worst: Option<Trial> = None;
    let mut tried = 0;
    let mut before = AllMild::default();
    for chosen in states {
        let state = chosen.state;
        let spared = chosen.follows && case.ranges() && !at_rest(d, answers, state);
        if spared && before.covers(d, answers, case, state) {
            continue;
        }
        before = AllMild::none_yet();
        let mut ends: Vec<(Outcome, f64)> = Vec::new();
        for change in 0..case.changes.len() {
            if case.ranges() && alike(&ends) {
                break;
            }
            let now = one(d, answers, case, (state, change), false);
            tried += 1;
            before.note(d, change, &now);
            let mut trial = now.trial;
            trial.case = index;
            let cool = trial.cool;
            ends.push((trial.outcome, trial.seconds.unwrap_or(0.0)));
            keep_worst(&mut worst, trial);
            // Where nothing is loaded with the least resistance, more of it loads nothing either.
            if cool && case.ranges() {
                break;
            }
        }
    }
    (worst, tried)
}

/// Parked with nothing on: a drain shows only there.
fn at_rest(d: &Design, answers: &Answers, state: usize) -> bool {
    let s = &answers.states[state].state;
    s.supply == plan::SupplyState::Parked && s.turned_on(d.loom) == 0
}

/// The same design with the next size of a fuse in its place.
fn with_larger<'a>(d: &Design<'a>, answers: &Answers, fuse: PartId) -> Option<Design<'a>> {
    let mut larger = Design::answered(d.loom, d.stock, d.habits, answers);
    larger.choice.fuses[fuse.0 as usize].as_mut()?.rating += 1;
    Some(larger)
}

/// A trial once more, with its moments.
pub fn detail(
    (loom, stock): (&Loom, &Stock),
    habits: &Habits,
    answers: &Answers,
    (case, trial): (&Case, &Trial),
) -> Detail {
    let d = Design::answered(loom, stock, habits, answers);
    let swapped = case.swapped.and_then(|fuse| with_larger(&d, answers, fuse));
    let d = swapped.as_ref().unwrap_or(&d);
    let now = one(d, answers, case, (trial.state, trial.change), true);
    Detail {
        case: case.clone(),
        trial: now.trial,
        moments: now.moments,
    }
}
