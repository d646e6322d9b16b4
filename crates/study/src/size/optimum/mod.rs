//! The choice that costs least: one whole-numbered problem over all wires and fuses, whose answer is tried in the full
//! model and cut off where that breaks a rule, until the cheapest that is left breaks none.
//!
//! | file | step |
//! |---|---|
//! | `roomy` | the loom in which nothing is loose: every wire as thick as may be |
//! | `options` | what each wire and fuse may be; which fuse asks for which wire |
//! | `plugs` | which wires go together into a connector |
//! | `rows` | what each load may lose on its way |
//! | `price` | what a choice costs |
//! | `within` | what no choice as cheap as one in hand can take |
//! | `program` | the problem as such, and its solution |
//! | `classes` | wires that may share a kind to buy |
//! | `seek` | from one choice to the next, until one holds |
//! | `solver` | the problem handed to the solver |
//! | `cuts` | what the full model breaks, and what forbids it |
//! | `tangent` | the row that forbids a load that loses too much, and all that do for the same reason |
//!
//! Every row asks no more than the full model; so what the problem's answer costs is a bound, and the first answer that
//! holds in the full model is the best there is. Fuses are the smallest that bear their load, of the class that the rough
//! search took. Two things are taken for granted, and tried against all choices of small looms in tests: that a thicker wire harms no other, and that a choice which loses too much still does where
//! wires beside its way are others.

mod classes;
mod cuts;
mod options;
mod plugs;
mod price;
mod program;
mod roomy;
mod rows;
mod seek;
mod solver;
mod tangent;
mod within;

#[cfg(test)]
mod tests;

use super::settle_all;
use crate::design::{Choice, Design};
use crate::insulation::Insulated;
use crate::settle::Settled;
use crate::state::State;
use crate::switchgear;
use loom::{Assumption, WireId};
use options::Options;
use plan::Aim;
use price::Prices;
pub use price::Weighed;
pub use program::{Cut, Kind, Need, Program, Row, Step};
use rows::Ask;

/// How the sizes were found.
#[derive(Clone, Debug)]
pub struct Sizing {
    /// What is sought the least of.
    pub aim: Aim,
    /// What was found.
    pub found: Weighed,
    /// The rough search's sizes, from which it started.
    pub rough: Weighed,
    /// No choice that holds is less than this part of what was found, by the aim: 1 where it was proved the best.
    pub bound: f64,
    /// Why it was not proved the best, if it was not.
    pub unproved: Option<String>,
    /// How many choices were tried in the full model.
    pub tried: usize,
    /// How many nodes of the search were looked at.
    pub nodes: u64,
    /// Whether every price of wire is the user's own.
    pub priced: bool,
    /// Figures of ours by which choices were weighed.
    pub assumed: Vec<Assumption>,
    /// The insulations that were sized with, the one taken first; empty where the plan left none open.
    pub insulations: Vec<Insulated>,
}

impl Sizing {
    /// Whether the sizes were proved the best.
    pub fn proved(&self) -> bool {
        self.unproved.is_none()
    }
}

/// Rounds of leaving out what is too dear.
const TIGHTENED: usize = 4;
/// Work that the solver may take for a loom, as nodes times its wires squared: four seconds.
const WORK: u64 = 350_000_000;
/// And the most nodes.
const NODES: u64 = 4_000;

/// How many nodes of the search a loom of so many wires is worth.
pub(crate) fn nodes(wires: usize) -> u64 {
    let wires = wires.max(1) as u64;
    (WORK / (wires * wires)).min(NODES)
}

/// The problem with what it speaks of.
struct Problem {
    options: Options,
    asks: Vec<(loom::PartId, Ask)>,
    program: Program,
}

/// From sizes that were found roughly to the best. Leaves them in the design, and gives its states settled.
/// `left` is how many nodes of the search it may still look at.
pub(crate) fn best(
    d: &mut Design,
    states: &[State],
    rough: Vec<Settled>,
    left: &mut u64,
) -> (Vec<Settled>, Sizing) {
    let start = d.choice.clone();
    let prices = Prices::new(d);
    let weighed = prices.weigh(&start);
    let mut sizing = Sizing::unknown(d, &prices, weighed);
    if !d.habits.seek {
        sizing.unproved = Some("the best sizes were not sought".to_owned());
        return (rough, sizing);
    }
    match Problem::new(d, states, &rough, &prices) {
        Some(mut problem) => match problem.search(d, states, &rough, (&mut sizing, left)) {
            Ok(settled) => {
                sizing.found = prices.weigh(&d.choice);
                return (settled, sizing);
            }
            Err(why) => sizing.unproved = Some(why),
        },
        None => sizing.unproved = Some("a state that sizes it has no answer".to_owned()),
    }
    d.choice = start;
    (rough, sizing)
}

/// A problem as it stood when its answer held in the full model.
#[derive(Clone, Debug)]
pub struct Posed {
    /// Options, and what binds them.
    pub program: Program,
    /// What its answer costs.
    pub cost: f64,
    /// Whether that was proved the least.
    pub proved: bool,
}

/// The problem that the sizes of a loom were found by, for states that size it. Nothing where no answer of it held.
pub(crate) fn posed(d: &mut Design, states: &[State], rough: &[Settled]) -> Option<Posed> {
    let prices = Prices::new(d);
    let mut problem = Problem::new(d, states, rough, &prices)?;
    let weighed = prices.weigh(&d.choice);
    let mut sizing = Sizing::unknown(d, &prices, weighed);
    let mut left = nodes(d.loom.wires.len());
    problem
        .search(d, states, rough, (&mut sizing, &mut left))
        .ok()?;
    let taken = problem.taken(&d.choice)?;
    Some(Posed {
        cost: problem.program.cost(&taken),
        program: problem.program,
        proved: sizing.proved(),
    })
}

impl Sizing {
    /// Before anything is known of it.
    fn unknown(d: &Design, prices: &Prices, start: Weighed) -> Self {
        Self {
            aim: d.habits.aim,
            found: start,
            rough: start,
            bound: 0.0,
            unproved: None,
            tried: 0,
            nodes: 0,
            priced: prices.known,
            assumed: prices.assumed(),
            insulations: d.habits.insulations.clone(),
        }
    }
}

impl Problem {
    /// Sets the problem up. Nothing where not even the roomiest loom has an answer.
    fn new(d: &mut Design, states: &[State], rough: &[Settled], prices: &Prices) -> Option<Self> {
        let wires = d.loom.each_wire();
        let mut lists: Vec<Vec<usize>> = wires.map(|(w, _)| options::known(d, rough, w)).collect();
        let mut problem = Self::of(d, states, rough, prices, &lists)?;
        // Where the rough sizes hold, only what is no dearer counts: that makes the roomiest loom less roomy.
        let mut before = None;
        for _ in 0..TIGHTENED {
            let Some((most, _)) = problem.hand(d, rough) else {
                break;
            };
            let Some(within) = within::within(&problem.program, most, before.as_ref()) else {
                break;
            };
            let open = within.open();
            before = Some(within);
            let had: usize = lists.iter().map(Vec::len).sum();
            let kept = problem.options.wires.iter().zip(&open).map(|(of, open)| {
                let open = of.iter().zip(open).filter(|(_, open)| **open);
                open.map(|(c, _)| *c).collect()
            });
            lists = kept.collect();
            if lists.iter().map(Vec::len).sum::<usize>() == had {
                break;
            }
            problem = Self::of(d, states, rough, prices, &lists)?;
        }
        Some(problem)
    }

    /// The problem over these conductors by wire.
    fn of(
        d: &mut Design,
        states: &[State],
        rough: &[Settled],
        prices: &Prices,
        lists: &[Vec<usize>],
    ) -> Option<Self> {
        let start = d.choice.clone();
        let mut lists = lists.to_vec();
        plugs::narrow(d, rough, &mut lists);
        let widest: Vec<usize> = lists.iter().map(|list| list[list.len() - 1]).collect();
        let roomy = roomy::settled(d, states, &widest, rough)?;
        d.choice.clone_from(&roomy.choice);
        let options = options::all(d, &roomy, &lists, (&start, rough));
        let asks = rows::asks(d, &roomy);
        let mut rows = rows::all(d, (&roomy, rough), &options, &asks);
        d.choice = start;
        rows.extend(rows::breaking(d, &options));
        let wires = options.wires.iter().enumerate();
        let mut things: Vec<Vec<f64>> = wires
            .map(|(w, list)| {
                let each = list.iter().map(|c| prices.wire(WireId(w as u32), *c));
                each.collect()
            })
            .collect();
        let held = options.fuses.iter().map(|(_, held)| held);
        things.extend(held.map(|held| held.iter().map(|f| prices.fuse(*f)).collect()));
        let beside = things.len();
        let plugs = &options.plugs;
        things.extend(plugs.iter().map(|plug| vec![0.0; plug.takes.len()]));
        let mut program = Program {
            things,
            rows,
            needs: options.needs.clone(),
            cuts: Vec::new(),
            kinds: prices.kinds(&options.wires),
            may: Vec::new(),
        };
        for (i, plug) in plugs.iter().enumerate() {
            let (needs, cuts) = plug.binds(beside + i);
            program.needs.extend(needs);
            program.cuts.extend(cuts);
        }
        Some(Self {
            options,
            asks,
            program,
        })
    }

    /// What the choice in the design costs and takes, where it holds.
    fn hand(&self, d: &Design, settled: &[Settled]) -> Option<(f64, Vec<usize>)> {
        let taken = self.taken(&d.choice)?;
        let broken = cuts::broken(d, settled, &self.options, &self.asks);
        let holds = broken.is_empty() && self.program.keeps(&taken);
        holds.then(|| (self.program.cost(&taken), taken))
    }

    /// A choice by options, where it is made of them.
    fn taken(&self, choice: &Choice) -> Option<Vec<usize>> {
        let wires = self.options.wires.iter().zip(&choice.wires);
        let wires = wires.map(|(list, c)| list.iter().position(|o| o == c));
        let held = self.options.fuses.iter();
        let fuses = held.map(|(part, held)| {
            let now = choice.fuses[part.0 as usize]?;
            held.iter().position(|h| *h == now)
        });
        let mut taken: Vec<usize> = wires.chain(fuses).collect::<Option<_>>()?;
        for plug in &self.options.plugs {
            taken.push(plug.class(&taken)?);
        }
        Some(taken)
    }

    /// Puts a choice into the design.
    fn take(&self, d: &mut Design, taken: &[usize]) {
        for (thing, option) in taken.iter().enumerate() {
            self.options.take(d, thing, *option);
        }
    }
}

/// The states settled with what is chosen, each switch of the class that then suits.
fn settled(d: &mut Design, states: &[State], before: &[Settled]) -> Vec<Settled> {
    let mut settled = settle_all(d, states, Some(before));
    let switches = d.choice.switches.clone();
    switchgear::choose(d, &settled);
    if d.choice.switches != switches {
        settled = settle_all(d, states, Some(&settled));
    }
    settled
}
