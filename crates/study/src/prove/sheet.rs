//! The test sheet: the probings that together reveal everything that any reading can, in as few minutes as can be found; and
//! what no reading reveals.
//!
//! A probing reveals a cause when what it then reads lies outside what a sound installation reads, nearly always. Which
//! probings to take is a set cover: what only one reveals first, then what reveals most per minute, then whatever the others
//! cover is left out; small ones are solved to the end.

use super::bench::{Bench, Suspect};
use super::probe::Probe;
use good_lp::{Expression, ProblemVariables, Solution, SolverModel, constraint, microlp, variable};
use rayon::prelude::*;
use std::collections::{BTreeMap, BTreeSet};
use std::sync::atomic::{AtomicUsize, Ordering};

/// A test sheet.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Sheet {
    /// Probings in the order to make them, by index into the bench's tests.
    pub tests: Vec<usize>,
    /// Causes that no reading reveals, by index.
    pub hidden: Vec<usize>,
    /// Whether no fewer minutes would do.
    pub proved: bool,
}

/// A reading under a cause lies outside the sound band so many standard deviations of its own.
const SURE: f64 = 2.0;
/// So many probings and things to reveal are solved to the end.
const EXACT: usize = 60;

/// The sheet of a bench; `tell` hears how many of the causes were looked at.
pub fn sheet(bench: &Bench, tell: &(dyn Fn(usize, usize) + Sync)) -> Sheet {
    let count = bench.causes.len();
    let done = AtomicUsize::new(0);
    let reveals: Vec<Vec<Vec<usize>>> = (0..count)
        .into_par_iter()
        .map(|cause| {
            let found = of_cause(bench, cause);
            tell(done.fetch_add(1, Ordering::Relaxed) + 1, count);
            found
        })
        .collect();
    let hidden = (0..count).filter(|c| reveals[*c].is_empty()).collect();
    let needs: BTreeSet<Vec<usize>> = reveals.into_iter().flatten().collect();
    let (mut tests, proved) = cover(bench, &least(needs));
    tests.sort_unstable();
    Sheet {
        tests,
        hidden,
        proved,
    }
}

/// By version of a cause that some reading reveals: which do. Of sizes the smallest that any reveals, and the largest: what
/// reveals the one reveals what lies between them.
fn of_cause(bench: &Bench, cause: usize) -> Vec<Vec<usize>> {
    let versions = &bench.causes[cause].versions;
    let sized = versions.iter().all(|v| v.ohms.is_some());
    let mut found = Vec::new();
    for v in 0..versions.len() {
        let by = revealed(bench, Suspect::One(cause, v));
        if by.is_empty() {
            continue;
        }
        found.push(by);
        if sized {
            found.push(revealed(bench, Suspect::One(cause, versions.len() - 1)));
            break;
        }
    }
    found.retain(|by| !by.is_empty());
    found
}

impl Bench<'_> {
    /// Whether no reading reveals something.
    pub(crate) fn is_hidden(&self, suspect: Suspect) -> bool {
        revealed(self, suspect).is_empty()
    }
}

/// The probings that reveal something.
fn revealed(bench: &Bench, suspect: Suspect) -> Vec<usize> {
    let wide = bench.d.limits.value("sound within");
    let mut found = Vec::new();
    for setting in bench.showing(suspect) {
        let sound = bench.readings(Suspect::Nothing, setting);
        let now = bench.readings(suspect, setting);
        let from = bench.of_setting(setting).start;
        for (i, (a, b)) in sound.iter().zip(now.iter()).enumerate() {
            // A new fuse is tried where one opened, and proves nothing of one that holds.
            let renews = matches!(
                bench.tests[from + i].probe,
                Probe::NewFuse(_) | Probe::NewFuseAlone(_)
            );
            if !renews && (a.value - b.value).abs() > wide * a.sd() + SURE * b.sd() {
                found.push(from + i);
            }
        }
    }
    found
}

/// Without those that hold another: who reveals the smaller reveals them.
fn least(needs: BTreeSet<Vec<usize>>) -> Vec<Vec<usize>> {
    let mut all: Vec<Vec<usize>> = needs.into_iter().collect();
    all.sort_by_key(Vec::len);
    let mut kept: Vec<Vec<usize>> = Vec::new();
    for need in all {
        let holds = |k: &Vec<usize>| k.iter().all(|t| need.binary_search(t).is_ok());
        if !kept.iter().any(holds) {
            kept.push(need);
        }
    }
    kept
}

/// Probings that meet every need, and whether no fewer minutes would.
fn cover(bench: &Bench, needs: &[Vec<usize>]) -> (Vec<usize>, bool) {
    let greedy = greedily(bench, needs);
    let tests: BTreeSet<usize> = needs.iter().flatten().copied().collect();
    if needs.len() > EXACT || tests.is_empty() {
        return (greedy, tests.is_empty());
    }
    let mut vars = ProblemVariables::new();
    let take: BTreeMap<usize, _> = tests
        .iter()
        .map(|t| (*t, vars.add(variable().binary())))
        .collect();
    let minutes: Expression = take.iter().map(|(t, v)| bench.tests[*t].minutes * *v).sum();
    let mut model = vars.minimise(minutes).using(microlp);
    for need in needs {
        let any: Expression = need.iter().map(|t| Expression::from(take[t])).sum();
        model = model.with(constraint!(any >= 1));
    }
    match model.solve() {
        Ok(s) => {
            let taken = take.iter().filter(|(_, v)| s.value(**v) > 0.5);
            (taken.map(|(t, _)| *t).collect(), true)
        }
        Err(_) => (greedy, false),
    }
}

fn greedily(bench: &Bench, needs: &[Vec<usize>]) -> Vec<usize> {
    let mut left: Vec<&Vec<usize>> = needs.iter().collect();
    let mut taken: Vec<usize> = Vec::new();
    while !left.is_empty() {
        let mut counts: BTreeMap<usize, usize> = BTreeMap::new();
        for t in left.iter().copied().flatten() {
            *counts.entry(*t).or_default() += 1;
        }
        let per_minute = |(t, n): &(usize, usize)| *n as f64 / bench.tests[*t].minutes;
        let best = counts
            .into_iter()
            .max_by(|a, b| per_minute(a).total_cmp(&per_minute(b)).then(b.0.cmp(&a.0)));
        let Some((best, _)) = best else { break };
        taken.push(best);
        left.retain(|need| !need.contains(&best));
    }
    // What the others cover is left out.
    for i in (0..taken.len()).rev() {
        let without = |need: &Vec<usize>| {
            need.iter()
                .any(|t| taken.iter().enumerate().any(|(j, x)| j != i && x == t))
        };
        if needs.iter().all(without) {
            taken.remove(i);
        }
    }
    taken
}
