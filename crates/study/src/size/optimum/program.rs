//! A choice as a whole-numbered problem. Of each of several things one option is taken, its options in an order in which
//! a later one is a larger one; rows, needs and cuts say which options go together; the least cost is sought. Knows
//! nothing of wires: what is handed to it can be tried by brute force, or handed to another program.
//!
//! | symbol | meaning |
//! |---|---|
//! | `y[t][k]` | 1 where thing `t` takes its option `k` or a later one; `y[t][0]` is always 1 |
//! | taken `k` | `y[t][k] − y[t][k+1]` |
//!
//! Things that no row, need, cut or kind joins are solved apart.

use microlp::{ComparisonOp, LinearExpr, OptimizationDirection, Problem, SolveOptions, Variable};
use std::collections::BTreeMap;

/// A whole choice.
#[derive(Clone, Debug, Default)]
pub struct Program {
    /// By thing: the cost of each of its options.
    pub things: Vec<Vec<f64>>,
    /// Sums that stay below a limit.
    pub rows: Vec<Row>,
    /// Options that ask for options of other things.
    pub needs: Vec<Need>,
    /// Of each, one at least.
    pub cuts: Vec<Cut>,
    /// What is bought once for any of many options.
    pub kinds: Vec<Kind>,
    /// By thing and option: whether it may be taken; empty where all may.
    pub may: Open,
}

/// A sum over what is taken that may be no more than a limit.
#[derive(Clone, Debug)]
pub struct Row {
    /// Things with the weight of each of their options.
    pub weights: Vec<(usize, Vec<f64>)>,
    /// The limit.
    pub most: f64,
}

/// An option of a thing that asks another to take one of these or a later one.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Need {
    /// The thing, and which option of it.
    pub of: (usize, usize),
    /// The other, and its least option; one beyond its last forbids the first.
    pub asks: (usize, usize),
}

/// Of these steps at least one is made.
#[derive(Clone, Debug, PartialEq)]
pub struct Cut(pub Vec<Step>);

/// A step away from what a thing takes.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Step {
    /// This thing takes this option or a later one.
    Up(usize, usize),
    /// This thing takes an option before this one.
    Down(usize, usize),
}

impl Step {
    fn thing(self) -> usize {
        match self {
            Self::Up(t, _) | Self::Down(t, _) => t,
        }
    }

    fn on(self, thing: usize) -> Self {
        match self {
            Self::Up(_, k) => Self::Up(thing, k),
            Self::Down(_, k) => Self::Down(thing, k),
        }
    }

    /// Whether a thing that takes this option has made the step.
    fn made(self, option: usize) -> bool {
        match self {
            Self::Up(_, k) => option >= k,
            Self::Down(_, k) => option < k,
        }
    }
}

/// What is bought once if any of these options is taken.
#[derive(Clone, Debug)]
pub struct Kind {
    /// What it costs.
    pub cost: f64,
    /// Things and options.
    pub options: Vec<(usize, usize)>,
}

/// What was found.
#[derive(Clone, Debug)]
pub struct Found {
    /// By thing: which option.
    pub taken: Vec<usize>,
    /// What it costs.
    pub cost: f64,
    /// No choice costs less than this.
    pub bound: f64,
    /// Whether that was proved to be the cost itself.
    pub proved: bool,
    /// Nodes of the search that were looked at.
    pub nodes: u64,
}

/// Why there is nothing.
#[derive(Clone, Debug, PartialEq)]
pub enum Nothing {
    /// No choice keeps every row.
    Impossible,
    /// The solver gave up before it had one; its own words.
    GaveUp(String),
}

/// Rounding that two sums of the same terms may differ by.
const ROUNDING: f64 = 2e-7;

/// Part of a row's largest weight below which another is noise.
const NOISE: f64 = 1e-5;

impl Program {
    /// What a choice costs.
    pub fn cost(&self, taken: &[usize]) -> f64 {
        let things = self.things.iter().zip(taken).map(|(t, k)| t[*k]);
        let bought = |kind: &&Kind| kind.options.iter().any(|(t, k)| taken[*t] == *k);
        let kinds = self.kinds.iter().filter(bought).map(|kind| kind.cost);
        things.chain(kinds).sum()
    }

    /// Whether a choice keeps every row, need and cut.
    pub fn keeps(&self, taken: &[usize]) -> bool {
        let below = |row: &Row| {
            let sum: f64 = row.weights.iter().map(|(t, w)| w[taken[*t]]).sum();
            sum <= row.most + ROUNDING * row.most.abs().max(1.0)
        };
        let has = |need: &Need| taken[need.of.0] != need.of.1 || taken[need.asks.0] >= need.asks.1;
        let passes = |cut: &Cut| cut.0.iter().any(|s| s.made(taken[s.thing()]));
        self.rows.iter().all(below) && self.needs.iter().all(has) && self.cuts.iter().all(passes)
    }

    /// The choice that costs least, within so many nodes of the search. `hint` is a choice to
    /// start from, if there is one that keeps everything.
    pub fn solve(&self, nodes: u64, hint: Option<&[usize]>) -> Result<Found, Nothing> {
        let mut left = nodes;
        let mut found = Found {
            taken: vec![0; self.things.len()],
            cost: 0.0,
            bound: 0.0,
            proved: true,
            nodes: 0,
        };
        let hint = hint.filter(|hint| self.keeps(hint));
        for part in self.parts() {
            let piece = self.piece(&part);
            let hint: Option<Vec<usize>> = hint.map(|h| part.iter().map(|t| h[*t]).collect());
            let best = solve_piece(&piece, left, hint.as_deref())?;
            left = left.saturating_sub(best.nodes);
            for (t, k) in part.iter().zip(&best.taken) {
                found.taken[*t] = *k;
            }
            found.bound += best.bound;
            found.proved &= best.proved;
            found.nodes += best.nodes;
        }
        found.cost = self.cost(&found.taken);
        if found.proved {
            found.bound = found.cost;
        }
        Ok(found)
    }

    /// Groups of things that something joins.
    fn parts(&self) -> Vec<Vec<usize>> {
        let mut joined = petgraph::unionfind::UnionFind::new(self.things.len());
        let mut join = |things: &mut dyn Iterator<Item = usize>| {
            if let Some(first) = things.next() {
                for t in things {
                    joined.union(first, t);
                }
            }
        };
        for row in &self.rows {
            join(&mut row.weights.iter().map(|(t, _)| *t));
        }
        for need in &self.needs {
            join(&mut [need.of.0, need.asks.0].into_iter());
        }
        for cut in &self.cuts {
            join(&mut cut.0.iter().map(|s| s.thing()));
        }
        for kind in &self.kinds {
            join(&mut kind.options.iter().map(|(t, _)| *t));
        }
        let mut parts: BTreeMap<usize, Vec<usize>> = BTreeMap::new();
        for t in 0..self.things.len() {
            parts.entry(joined.find(t)).or_default().push(t);
        }
        parts.into_values().collect()
    }

    /// The problem of some of the things, renumbered.
    fn piece(&self, part: &[usize]) -> Self {
        let place: BTreeMap<usize, usize> = part.iter().enumerate().map(|(i, t)| (*t, i)).collect();
        let at = |t: usize| place.get(&t).copied();
        let pair = |(t, k): (usize, usize)| at(t).map(|t| (t, k));
        let row = |row: &Row| {
            let weights = row.weights.iter();
            let weights: Option<Vec<_>> =
                weights.map(|(t, w)| Some((at(*t)?, w.clone()))).collect();
            weights.map(|weights| Row {
                weights,
                most: row.most,
            })
        };
        let need = |need: &Need| {
            Some(Need {
                of: pair(need.of)?,
                asks: pair(need.asks)?,
            })
        };
        let cut = |cut: &Cut| {
            let steps = cut.0.iter().map(|s| Some(s.on(at(s.thing())?)));
            steps.collect::<Option<_>>().map(Cut)
        };
        let kind = |kind: &Kind| {
            let options: Option<Vec<_>> = kind.options.iter().map(|o| pair(*o)).collect();
            options.map(|options| Kind {
                cost: kind.cost,
                options,
            })
        };
        Self {
            things: part.iter().map(|t| self.things[*t].clone()).collect(),
            rows: self.rows.iter().filter_map(row).collect(),
            needs: self.needs.iter().filter_map(need).collect(),
            cuts: self.cuts.iter().filter_map(cut).collect(),
            kinds: self.kinds.iter().filter_map(kind).collect(),
            may: match self.may.is_empty() {
                true => Open::new(),
                false => part.iter().map(|t| self.may[*t].clone()).collect(),
            },
        }
    }
}

/// By thing and option: whether it may be taken.
pub type Open = Vec<Vec<bool>>;

/// Options that no choice can take, since what the others take at least is too much beside them. Nothing where a thing
/// has none left.
pub(super) fn open(p: &Program) -> Option<Open> {
    let mut open = match p.may.is_empty() {
        true => p.things.iter().map(|t| vec![true; t.len()]).collect(),
        false => p.may.clone(),
    };
    loop {
        let mut closed = false;
        for row in &p.rows {
            let least = |(t, w): &(usize, Vec<f64>)| {
                let left = w.iter().zip(&open[*t]).filter(|(_, open)| **open);
                left.map(|(w, _)| *w).fold(f64::INFINITY, f64::min)
            };
            let each: Vec<f64> = row.weights.iter().map(least).collect();
            let all: f64 = each.iter().sum();
            let most = row.most + ROUNDING * row.most.abs().max(1.0);
            for ((t, w), least) in row.weights.iter().zip(&each) {
                for (k, w) in w.iter().enumerate() {
                    if open[*t][k] && all - least + w > most {
                        open[*t][k] = false;
                        closed = true;
                    }
                }
            }
        }
        for need in &p.needs {
            let asked = &open[need.asks.0];
            let may = asked
                .get(need.asks.1..)
                .is_some_and(|left| left.contains(&true));
            if !may && open[need.of.0][need.of.1] {
                open[need.of.0][need.of.1] = false;
                closed = true;
            }
        }
        closed |= asked_by_all(p, &mut open);
        if open.iter().any(|options| !options.contains(&true)) {
            return None;
        }
        if !closed {
            return Some(open);
        }
    }
}

/// Closes what is less than every option that is left of some thing asks for. Whether anything was.
fn asked_by_all(p: &Program, open: &mut Open) -> bool {
    let mut least: BTreeMap<(usize, usize), Vec<(usize, usize)>> = BTreeMap::new();
    for need in &p.needs {
        let pair = (need.of.0, need.asks.0);
        least
            .entry(pair)
            .or_default()
            .push((need.of.1, need.asks.1));
    }
    let mut closed = false;
    for ((of, other), asks) in least {
        let asked = |k: usize| {
            asks.iter()
                .filter(|a| a.0 == k)
                .map(|a| a.1)
                .max()
                .unwrap_or(0)
        };
        let left = (0..p.things[of].len()).filter(|k| open[of][*k]);
        let least = left.map(asked).min().unwrap_or(0);
        for option in open[other].iter_mut().take(least) {
            closed |= std::mem::replace(option, false);
        }
    }
    closed
}

/// A problem under way: the options that are left, and a variable for each but the first of a thing.
struct Model {
    problem: Problem,
    /// By thing: its options that are left.
    left: Vec<Vec<usize>>,
    /// By thing: the variables of the second and later ones.
    steps: Vec<Vec<Variable>>,
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
        for (costs, open) in p.things.iter().zip(open) {
            let options: Vec<usize> = (0..costs.len()).filter(|k| open[*k]).collect();
            let dearer = options
                .windows(2)
                .map(|pair| costs[pair[1]] - costs[pair[0]]);
            let vars: Vec<Variable> = dearer.map(|c| problem.add_binary_var(c)).collect();
            for pair in vars.windows(2) {
                let order = [(pair[0], 1.0), (pair[1], -1.0)];
                problem.add_constraint(order, ComparisonOp::Ge, 0.0);
            }
            left.push(options);
            steps.push(vars);
        }
        Self {
            problem,
            left,
            steps,
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
    fn ask(&mut self, p: &Program) -> bool {
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
        let open: Vec<&Kind> = p.kinds.iter().filter(|kind| !self.certain(kind)).collect();
        for kind in open {
            let bought = self.problem.add_binary_var(kind.cost);
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

/// Solves a problem all of whose things hang together.
fn solve_piece(p: &Program, nodes: u64, hint: Option<&[usize]>) -> Result<Found, Nothing> {
    let open = open(p).ok_or(Nothing::Impossible)?;
    let mut model = Model::new(p, &open);
    if !model.ask(p) {
        return Err(Nothing::Impossible);
    }
    let first = model
        .left
        .iter()
        .zip(&p.things)
        .map(|(left, costs)| costs[left[0]]);
    let certain = p
        .kinds
        .iter()
        .filter(|kind| model.certain(kind))
        .map(|kind| kind.cost);
    let first: f64 = first.chain(certain).sum();
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
        .map_or(f64::NEG_INFINITY, |b| b + first);
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
