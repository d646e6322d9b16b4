//! A whole-numbered problem handed to the solver: each thing's options as steps one above the other.
//!
//! | symbol | meaning |
//! |---|---|
//! | `y[t][k]` | 1 where thing `t` takes its option `k` or a later one; `y[t][0]` is always 1 |
//! | taken `k` | `y[t][k] − y[t][k+1]` |

use super::program::{Found, Kind, Nothing, Open, Program, ROUNDING, open};
use microlp::{ComparisonOp, LinearExpr, OptimizationDirection, Problem, SolveOptions, Variable};
use std::collections::BTreeMap;

/// Part of a row's largest weight below which another is noise.
const NOISE: f64 = 1e-5;

/// A problem under way: the options that are left, and a variable for each but the first of a thing.
struct Model {
    problem: Problem,
    /// By thing: its options that are left.
    left: Vec<Vec<usize>>,
    /// By thing: the variables of the second and later ones.
    steps: Vec<Vec<Variable>>,
    /// What is paid whatever is taken.
    paid: f64,
}

/// A sum of variables with what stands beside it.
#[derive(Default)]
struct Sum {
    terms: Vec<(Variable, f64)>,
    constant: f64,
}

impl Model {
    fn new(p: &Program, open: &Open) -> Self {
        let mut problem = Problem::new(OptimizationDirection::Minimize);
        let mut left: Vec<Vec<usize>> = Vec::new();
        let mut steps: Vec<Vec<Variable>> = Vec::new();
        let mut paid = 0.0;
        let alone = alone(p, open);
        for (t, (costs, open)) in p.things.iter().zip(open).enumerate() {
            let costs: Vec<f64> = (0..costs.len())
                .map(|k| costs[k] + alone.get(&(t, k)).copied().unwrap_or(0.0))
                .collect();
            let options: Vec<usize> = (0..costs.len()).filter(|k| open[*k]).collect();
            let dearer = options
                .windows(2)
                .map(|pair| costs[pair[1]] - costs[pair[0]]);
            let vars: Vec<Variable> = dearer.map(|c| problem.add_binary_var(c)).collect();
            for pair in vars.windows(2) {
                let order = [(pair[0], 1.0), (pair[1], -1.0)];
                problem.add_constraint(order, ComparisonOp::Ge, 0.0);
            }
            paid += costs[options[0]];
            left.push(options);
            steps.push(vars);
        }
        Self {
            problem,
            left,
            steps,
            paid,
        }
    }

    /// Adds `weight` for each option of a thing to a sum.
    fn add(&self, sum: &mut Sum, thing: usize, weight: impl Fn(usize) -> f64) {
        let mut before = 0.0;
        for (i, k) in self.left[thing].iter().enumerate() {
            let here = weight(*k);
            match i.checked_sub(1) {
                None => sum.constant += here,
                Some(step) if here != before => {
                    sum.terms.push((self.steps[thing][step], here - before));
                }
                Some(_) => {}
            }
            before = here;
        }
    }

    /// Asks that a sum be no more than nothing. Whether it can be.
    fn keep(&mut self, sum: Sum) -> bool {
        if sum.terms.is_empty() {
            return sum.constant <= ROUNDING * sum.constant.abs().max(1.0);
        }
        // A thing may stand in a row more than once.
        let mut by_variable: BTreeMap<usize, (Variable, f64)> = BTreeMap::new();
        for (v, weight) in sum.terms {
            by_variable.entry(v.idx()).or_insert((v, 0.0)).1 += weight;
        }
        // Rows in millivolts beside rows in amperes would be hard to factor.
        let each = by_variable.values().map(|(_, weight)| weight.abs());
        let largest = each.fold(0.0, f64::max);
        if largest == 0.0 {
            return sum.constant <= ROUNDING;
        }
        // What hardly counts would be noise to the solver: it is taken at its least, which asks no more.
        let mut constant = sum.constant;
        let counts = by_variable.into_values().filter(|(_, weight)| {
            let kept = weight.abs() > NOISE * largest;
            if !kept {
                constant += weight.min(0.0);
            }
            kept
        });
        let terms: LinearExpr = counts.map(|(v, weight)| (v, weight / largest)).collect();
        let most = -constant / largest;
        self.problem.add_constraint(terms, ComparisonOp::Le, most);
        true
    }

    /// Whether some thing has no option left that is not of a kind: then it is bought.
    fn certain(&self, kind: &Kind) -> bool {
        let mut left: BTreeMap<usize, usize> = BTreeMap::new();
        for (t, k) in &kind.options {
            *left.entry(*t).or_default() += usize::from(self.left[*t].contains(k));
        }
        left.iter().any(|(t, n)| *n == self.left[*t].len())
    }

    /// Every row, need, cut and kind of a problem. Whether all can be kept.
    fn ask(&mut self, p: &Program, open: &Open) -> bool {
        let from = |least: usize| move |k: usize| if k >= least { 1.0 } else { 0.0 };
        let at = |option: usize| move |k: usize| if k == option { 1.0 } else { 0.0 };
        let mut may = true;
        for row in &p.rows {
            let mut sum = Sum {
                constant: -row.most,
                ..Sum::default()
            };
            for (t, w) in &row.weights {
                self.add(&mut sum, *t, |k| w[k]);
            }
            may &= self.keep(sum);
        }
        for need in &p.needs {
            let mut sum = Sum::default();
            self.add(&mut sum, need.of.0, at(need.of.1));
            self.add(&mut sum, need.asks.0, |k| -from(need.asks.1)(k));
            may &= self.keep(sum);
        }
        for cut in &p.cuts {
            let mut sum = Sum {
                constant: 1.0,
                ..Sum::default()
            };
            for step in &cut.0 {
                let made = |k: usize| if step.made(k) { -1.0 } else { 0.0 };
                self.add(&mut sum, step.thing(), made);
            }
            may &= self.keep(sum);
        }
        let shared = |kind: &Kind| left(kind, open).count() > 1;
        for kind in p.kinds.iter().filter(|kind| shared(kind)) {
            if self.certain(kind) {
                self.paid += kind.cost;
                continue;
            }
            let bought = self.problem.add_var(kind.cost, (0.0, 1.0));
            for (t, option) in &kind.options {
                let mut sum = Sum::default();
                self.add(&mut sum, *t, at(*option));
                sum.terms.push((bought, -1.0));
                may &= self.keep(sum);
            }
        }
        may
    }

    /// A choice as values of the variables.
    fn start(&self, taken: &[usize]) -> Vec<(Variable, f64)> {
        let mut values = Vec::new();
        for ((options, steps), k) in self.left.iter().zip(&self.steps).zip(taken) {
            let at = options.iter().position(|o| o == k).unwrap_or(0);
            let value = |i: usize| if i < at { 1.0 } else { 0.0 };
            values.extend(steps.iter().enumerate().map(|(i, v)| (*v, value(i))));
        }
        values
    }
}

/// The options of a kind that are left.
fn left<'a>(kind: &'a Kind, open: &Open) -> impl Iterator<Item = &'a (usize, usize)> {
    kind.options.iter().filter(|(t, k)| open[*t][*k])
}

/// What an option costs beside its price, since nothing else is of its kind.
fn alone(p: &Program, open: &Open) -> BTreeMap<(usize, usize), f64> {
    let mut found = BTreeMap::new();
    for kind in &p.kinds {
        let mut left = left(kind, open);
        if let (Some(option), None) = (left.next(), left.next()) {
            *found.entry(*option).or_default() += kind.cost;
        }
    }
    found
}

/// Solves a problem all of whose things hang together.
pub(super) fn solve_piece(
    p: &Program,
    nodes: u64,
    hint: Option<&[usize]>,
) -> Result<Found, Nothing> {
    let open = open(p).ok_or(Nothing::Impossible)?;
    let mut model = Model::new(p, &open);
    if !model.ask(p, &open) {
        return Err(Nothing::Impossible);
    }
    let mut options = SolveOptions::default();
    options.node_limit = Some(nodes);
    options.warm_start = hint.map(|hint| model.start(hint));
    let mut solved = model.problem.solve_with(options.clone());
    if let (Err(microlp::Error::InternalError(_)), true) = (&solved, hint.is_some()) {
        // Its factors may fail on the way from a start, and not on the way from nothing.
        options.warm_start = None;
        solved = model.problem.solve_with(options);
    }
    let outcome = match solved {
        Ok(outcome) => outcome,
        Err(microlp::Error::Infeasible) => return Err(Nothing::Impossible),
        Err(other) => return Err(Nothing::GaveUp(other.to_string())),
    };
    let bound = outcome
        .stats()
        .best_bound
        .map_or(f64::NEG_INFINITY, |b| b + model.paid);
    let proved = outcome.is_optimal();
    let nodes = outcome.stats().nodes_solved;
    let Ok(solution) = outcome.into_solution() else {
        return Err(Nothing::GaveUp("no choice found in time".to_owned()));
    };
    let taken: Vec<usize> = model
        .left
        .iter()
        .zip(&model.steps)
        .map(|(left, steps)| {
            left[steps
                .iter()
                .filter(|v| solution.var_value(**v) > 0.5)
                .count()]
        })
        .collect();
    // Trust, and look: rounding inside the solver must not hand out what breaks a row.
    if !p.keeps(&taken) {
        return Err(Nothing::GaveUp("its choice breaks a row".to_owned()));
    }
    let cost = p.cost(&taken);
    Ok(Found {
        bound: if proved { cost } else { bound.min(cost) },
        taken,
        cost,
        proved,
        nodes,
    })
}
