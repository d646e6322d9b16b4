//! Mends for what burns or runs unasked, tried: the plan is changed as a person would change it, walked through every
//! room again, and every fault of that kind in those circuits is tried once more. Where no one change cures, changes are
//! tried together.
//!
//! | file | step |
//! |---|---|
//! | `candidates` | what may help, the least work first |
//! | `again` | whether it does: the same faults on the changed plan |
//! | `remedy` | mends for what a check finds |
//! | `questions` | where in the plan a finding is answered |
//! | `words` | what was tried, in a sentence |

mod again;
mod candidates;
mod questions;
mod remedy;
mod words;

pub use questions::Question;
pub use remedy::{Remedied, Remedy};

use crate::{Job, Source};
use finding::{Finding, Weight};
use std::collections::VecDeque;
use study::{FaultFinding, Tries};

/// One thing to change in a plan.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub struct Change {
    /// Where: "circuit[rack lamps].fuse".
    pub path: String,
    /// What to set it to, as TOML; none to take it out.
    pub value: Option<String>,
}

/// A mend, and what came of it.
#[derive(Clone, Debug)]
pub struct Mend {
    /// What to do, in words.
    pub says: String,
    /// What it changes in the plan, one after the other.
    pub changes: Vec<Change>,
    /// Whether the faults then end otherwise.
    pub cures: bool,
    /// What `check` finds then that it did not before, in sentences; notes aside.
    pub adds: Vec<String>,
    /// Whether wires get other numbers by it.
    pub renumbers: bool,
}

impl Mend {
    /// Whether it cures and brings no other trouble.
    fn is_clean(&self) -> bool {
        self.cures && self.adds.is_empty()
    }
}

/// What was found by trying faults, with the mends that were tried.
#[derive(Clone, Debug)]
pub struct Mended {
    /// The finding; its mend tells what was tried and what it does.
    pub finding: Finding,
    /// The faults: indices into the cases.
    pub trials: Vec<usize>,
    /// Mends in the order tried; the last cures, if any does.
    pub mends: Vec<Mend>,
}

/// Jobs by what was changed, the last few: many findings ask for the same.
#[derive(Default)]
struct Walked(VecDeque<(Vec<Change>, Option<Job>)>);

/// Jobs that are kept: one of 40 circuits takes some 20 MB.
const KEPT: usize = 4;

impl Walked {
    /// The job with these changes; none where the plan can't take them.
    fn with(&mut self, before: &Job, changes: &[Change]) -> Option<&Job> {
        let known = self.0.iter().position(|(c, _)| c == changes);
        let at = known.unwrap_or_else(|| {
            if self.0.len() == KEPT {
                self.0.pop_front();
            }
            self.0
                .push_back((changes.to_vec(), before.changed(changes)));
            self.0.len() - 1
        });
        self.0[at].1.as_ref()
    }
}

/// Mends that are tried together at most, and plans that are walked for one finding at most. Our own, no source: what
/// takes more is for a person to think about.
const TOGETHER: usize = 3;
const WALKS: usize = 16;

/// Changes that are to be tried.
struct Next {
    says: String,
    changes: Vec<Change>,
    /// Of how many mends it is put together.
    steps: usize,
}

impl Job {
    /// What was found by trying faults, each stop with mends tried until one cures it.
    /// `told` hears how many findings are done, of how many.
    pub fn mended(&self, tries: &Tries, told: &dyn Fn(usize, usize)) -> Vec<Mended> {
        let Some(loom) = self.loom() else {
            return Vec::new();
        };
        let found = study::told(loom, tries);
        let all = found.len();
        let mut walked = Walked::default();
        // Those that ask for the same changes one after the other, so that each plan is walked once.
        let mut order: Vec<usize> = (0..all).collect();
        order.sort_by_cached_key(|i| {
            let first = self.candidates(tries, &found[*i].trials).into_iter().next();
            (first.map(|(_, changes)| changes), *i)
        });
        let mut mended: Vec<(usize, Mended)> = Vec::new();
        for i in order {
            mended.push((i, self.mend(tries, &found[i], &mut walked)));
            told(mended.len(), all);
        }
        mended.sort_by_key(|(i, _)| *i);
        mended.into_iter().map(|(_, m)| m).collect()
    }

    fn mend(&self, tries: &Tries, found: &FaultFinding, walked: &mut Walked) -> Mended {
        let FaultFinding { finding, trials } = found;
        let mut finding = finding.clone();
        let mut mends = Vec::new();
        if finding.weight == Weight::Stop {
            mends = self.tried(tries, trials, walked);
            // One that brings no other trouble comes last already; else the first that cures does.
            if !mends.last().is_some_and(Mend::is_clean)
                && let Some(first) = mends.iter().position(|m| m.cures)
            {
                let best = mends.remove(first);
                mends.push(best);
            }
            finding.mend = words::told(&mends, &finding.mend);
        }
        Mended {
            finding,
            trials: trials.clone(),
            mends,
        }
    }

    /// Tries mends until one cures and brings no other trouble: each by itself, then, while none cures, each with what may
    /// help against what it leaves.
    fn tried(&self, tries: &Tries, trials: &[usize], walked: &mut Walked) -> Vec<Mend> {
        let mut mends: Vec<Mend> = Vec::new();
        let alone = self.candidates(tries, trials);
        let mut next: VecDeque<Next> = alone
            .into_iter()
            .map(|(says, changes)| Next {
                says,
                changes,
                steps: 1,
            })
            .collect();
        while let Some(Next {
            says,
            changes,
            steps,
        }) = next.pop_front()
        {
            let deeper = steps > 1;
            if mends.len() == WALKS || (deeper && mends.iter().any(|m| m.cures)) {
                break;
            }
            let job = walked.with(self, &changes);
            let left = job.and_then(|job| again::left(self, job, tries, trials));
            if let (Some(job), Some(left)) = (job, &left)
                && steps < TOGETHER
                && let Some(worst) = left.found.first()
            {
                for (and, more) in job.candidates(&left.tries, &worst.trials) {
                    let both: Vec<Change> = changes.iter().chain(&more).cloned().collect();
                    let known = next.iter().any(|n| n.changes == both);
                    if !known && !more.iter().any(|m| changes.contains(m)) {
                        next.push_back(Next {
                            says: format!("{says}, and {and}"),
                            changes: both,
                            steps: steps + 1,
                        });
                    }
                }
            }
            let mend = Mend {
                says,
                cures: left.is_some_and(|l| l.found.is_empty()),
                adds: job.map_or_else(Vec::new, |job| self.new_findings(job)),
                renumbers: job.is_some_and(|job| !again::renamed(self, job).is_empty()),
                changes,
            };
            let done = mend.is_clean();
            mends.push(mend);
            if done {
                break;
            }
        }
        mends
    }

    /// What stops or is to be mended in a changed job and is not in this one; and what `[wire]` entries mean another
    /// wire then.
    fn new_findings(&self, job: &Self) -> Vec<String> {
        let (Some(before), Some(after)) = (self.answers(), job.answers()) else {
            return Vec::new();
        };
        let known = |f: &Finding| {
            before
                .findings
                .iter()
                .any(|b| b.id == f.id && b.names() == f.names())
        };
        let new = after
            .findings
            .iter()
            .filter(|f| f.weight != Weight::Note && !known(f));
        let mut said: Vec<String> = new.map(|f| f.says.clone()).collect();
        let entries = self.plan().map_or(&[][..], |p| &p.wires);
        let renamed = again::renamed(self, job);
        let moved = entries.iter().filter(|w| renamed.contains(&w.name.value));
        said.extend(moved.map(|w| {
            format!(
                "the plan's entry for {} then means another wire",
                w.name.value
            )
        }));
        said
    }

    /// This job with its plan changed; none where the plan can't take the changes.
    fn changed(&self, changes: &[Change]) -> Option<Self> {
        let [plan, stock @ ..] = self.sources() else {
            return None;
        };
        let text = Source {
            name: plan.name.clone(),
            text: self.text_with(changes).ok()?,
        };
        let job = Self::read(text, stock.to_vec());
        job.errors().is_empty().then_some(job)
    }
}
