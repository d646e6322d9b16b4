//! The test sheet: the probings that together reveal everything that any reading can, in as few minutes as can be found; and
//! what no reading reveals.
//!
//! A probing reveals a cause when what it then reads lies outside what a sound installation reads, nearly always. Which
//! probings to take is a set cover: what only one reveals first, then what reveals most per minute, then whatever the others
//! cover is left out; small ones are solved to the end.

use super::bench::{Bench, Suspect};
use super::weigh::singles;
use good_lp::{Expression, ProblemVariables, Solution, SolverModel, constraint, microlp, variable};
use rayon::prelude::*;
use std::collections::{BTreeMap, BTreeSet};

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

/// The sheet of a bench.
pub fn sheet(bench: &Bench) -> Sheet {
    let suspects: Vec<Suspect> = singles(bench)
        .into_iter()
        .filter(|s| *s != Suspect::Nothing)
        .collect();
    let reveals: Vec<Vec<usize>> = suspects.par_iter().map(|s| revealed(bench, *s)).collect();
    let mut seen = vec![false; bench.causes.len()];
    for (s, by) in suspects.iter().zip(&reveals) {
        for c in s.causes() {
            seen[c] |= !by.is_empty();
        }
    }
    let hidden = (0..seen.len()).filter(|c| !seen[*c]).collect();
    let needs: BTreeSet<Vec<usize>> = reveals.into_iter().filter(|by| !by.is_empty()).collect();
    let (mut tests, proved) = cover(bench, &least(needs));
    tests.sort_unstable();
    Sheet {
        tests,
        hidden,
        proved,
    }
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
        let sound = bench.sight(Suspect::Nothing, setting);
        let now = bench.sight(suspect, setting);
        let from = bench.of_setting(setting).start;
        for (i, (a, b)) in sound.reads.iter().zip(&now.reads).enumerate() {
            if (a.value - b.value).abs() > wide * a.sd() + SURE * b.sd() {
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
