//! A choice as a whole-numbered problem. Of each of several things one option is taken, its options in an order in which
//! a later one is a larger one; rows, needs and cuts say which options go together; the least cost is sought. Knows
//! nothing of wires: what is handed to it can be tried by brute force, or handed to another program.
//!
//! Things that no row, need, cut or kind joins are solved apart.

use super::solver::solve_piece;
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

impl Row {
    pub(super) fn keeps(&self, taken: &[usize]) -> bool {
        let sum: f64 = self.weights.iter().map(|(t, w)| w[taken[*t]]).sum();
        sum <= self.most + ROUNDING * self.most.abs().max(1.0)
    }
}

/// An option of a thing that asks another to take one of these or a later one.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Need {
    /// The thing, and which option of it.
    pub of: (usize, usize),
    /// The other, and its least option; one beyond its last forbids the first.
    pub asks: (usize, usize),
}

impl Need {
    pub(super) fn keeps(&self, taken: &[usize]) -> bool {
        taken[self.of.0] != self.of.1 || taken[self.asks.0] >= self.asks.1
    }
}

/// Of these steps at least one is made.
#[derive(Clone, Debug, PartialEq)]
pub struct Cut(pub Vec<Step>);

impl Cut {
    pub(super) fn keeps(&self, taken: &[usize]) -> bool {
        self.0.iter().any(|s| s.made(taken[s.thing()]))
    }
}

/// A step away from what a thing takes.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Step {
    /// This thing takes this option or a later one.
    Up(usize, usize),
    /// This thing takes an option before this one.
    Down(usize, usize),
}

impl Step {
    pub(super) fn thing(self) -> usize {
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
    pub(super) fn made(self, option: usize) -> bool {
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
pub(super) const ROUNDING: f64 = 2e-7;

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
        self.rows.iter().all(|row| row.keeps(taken))
            && self.needs.iter().all(|need| need.keeps(taken))
            && self.cuts.iter().all(|cut| cut.keeps(taken))
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
