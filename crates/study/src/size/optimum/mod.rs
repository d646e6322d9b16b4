//! The choice that costs least: one whole-numbered problem over all wires and fuses, whose answer is tried in the full
//! model and cut off where that breaks a rule, until the cheapest that is left breaks none.
//!
//! | file | step |
//! |---|---|
//! | `roomy` | the loom in which nothing is loose: every wire as thick as may be |
//! | `options` | what each wire and fuse may be; which fuse asks for which wire |
//! | `rows` | what each load may lose on its way |
//! | `price` | what a choice costs |
//! | `within` | what no choice as cheap as one in hand can take |
//! | `program` | the problem as such, and its solution |
//! | `solver` | the problem handed to the solver |
//! | `cuts` | what the full model breaks, and what forbids it |
//! | `tangent` | the row that forbids a load that loses too much, and all that do for the same reason |
//!
//! Every row asks no more than the full model; so what the problem's answer costs is a bound, and the first answer that
//! holds in the full model is the best there is. Fuses are the smallest that bear their load, of the class that the rough
//! search took. Two things are taken for granted, and tried against all choices of small looms in tests: that a thicker wire harms no other, and that a choice which loses too much still does where
//! wires beside its way are others.

mod cuts;
mod options;
mod price;
mod program;
mod roomy;
mod rows;
mod solver;
mod tangent;
mod within;

#[cfg(test)]
mod tests;

use super::{search, settle_all};
use crate::design::{Choice, Design};
use crate::insulation::Insulated;
use crate::settle::Settled;
use crate::state::State;
use crate::switchgear;
use cuts::{Broken, Forbids};
use loom::{Assumption, WireId};
use options::Options;
use plan::Aim;
use price::Prices;
pub use price::Weighed;
pub use program::{Cut, Kind, Need, Program, Row, Step};
use program::{Found, Nothing};
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
/// Choices that are tried in the full model before it is left at a bound.
const TRIED: usize = 120;
/// A choice that breaks no more than this is mended, for a better one in hand.
const MENDED: usize = 6;
/// Work that the solver may take for a loom, as nodes times its wires squared: two or three seconds.
const WORK: u64 = 100_000_000;
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
        for _ in 0..TIGHTENED {
            let Some((most, _)) = problem.hand(d, rough) else {
                break;
            };
            let Some(open) = within::within(&problem.program, most) else {
                break;
            };
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
        let widest: Vec<usize> = lists.iter().map(|list| list[list.len() - 1]).collect();
        let roomy = roomy::settled(d, states, &widest, rough)?;
        d.choice.clone_from(&roomy.choice);
        let options = options::all(d, &roomy, lists, (&start, rough));
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
        let mut program = Program {
            things,
            rows,
            needs: options.needs.clone(),
            cuts: Vec::new(),
            kinds: prices.kinds(&options.wires),
            may: Vec::new(),
        };
        for (load, _) in asks.iter().filter(|(_, ask)| *ask == Ask::Most) {
            for w in d.paths.way(*load) {
                let at = w.0 as usize;
                program
                    .cuts
                    .push(Cut(vec![Step::Up(at, options.wires[at].len() - 1)]));
            }
        }
        Some(Self {
            options,
            asks,
            program,
        })
    }

    /// Solves, tries in the full model and cuts off, until what is found holds there. Why there is nothing better than
    /// the rough sizes, if there is not.
    fn search(
        &mut self,
        d: &mut Design,
        states: &[State],
        rough: &[Settled],
        (sizing, left): (&mut Sizing, &mut u64),
    ) -> Result<Vec<Settled>, String> {
        let mut hand = self.hand(d, rough);
        let start = hand.clone();
        match self.seek(d, states, rough, (sizing, left), &mut hand) {
            Ok(settled) => Ok(settled),
            // What was mended on the way is better than what it began with.
            Err(why) if hand != start => {
                let Some((_, taken)) = hand else {
                    return Err(why);
                };
                sizing.unproved = Some(why);
                self.take(d, &taken);
                Ok(settled(d, states, rough))
            }
            Err(why) => Err(why),
        }
    }

    fn seek(
        &mut self,
        d: &mut Design,
        states: &[State],
        rough: &[Settled],
        (sizing, left): (&mut Sizing, &mut u64),
        hand: &mut Option<(f64, Vec<usize>)>,
    ) -> Result<Vec<Settled>, String> {
        let mut before = rough.to_vec();
        // Somewhere to start from where nothing is in hand: the roomiest.
        let widest: Vec<usize> = self.program.things.iter().map(|t| t.len() - 1).collect();
        while sizing.tried < TRIED {
            if let Some((cost, _)) = &hand {
                let may = within::within(&self.program, *cost);
                self.program.may = may.unwrap_or_default();
            }
            let start = hand.as_ref().map_or(&widest[..], |(_, taken)| &taken[..]);
            let found = match self.program.solve(*left, Some(start)) {
                Ok(found) => found,
                Err(Nothing::Impossible) => return Err("no choice holds every rule".to_owned()),
                Err(Nothing::GaveUp(why)) => return Err(why),
            };
            *left = left.saturating_sub(found.nodes);
            sizing.tried += 1;
            sizing.nodes += found.nodes;
            // A bound says something of what is in hand; where nothing that holds is, it says nothing.
            let bound = |(cost, _): &(f64, _)| (found.bound / cost).min(1.0);
            sizing.bound = hand.as_ref().map_or(0.0, bound);
            self.take(d, &found.taken);
            let settled = settled(d, states, &before);
            let broken = cuts::broken(d, &settled, &self.options, &self.asks);
            if broken.is_empty() {
                sizing.bound = found.bound / found.cost;
                if !found.proved {
                    sizing.unproved = Some("the search was long enough".to_owned());
                }
                return Ok(settled);
            }
            if *left == 0 {
                return Err("the search was long enough".to_owned());
            }
            for b in &broken {
                self.forbid(d, &settled, &found, b)?;
            }
            if broken.len() <= MENDED {
                let grown = search::converge(d, states, Some(settled.clone()));
                let mended = self.hand(d, &grown);
                if let Some(mended) = mended
                    && hand.as_ref().is_none_or(|(cost, _)| mended.0 < *cost)
                {
                    *hand = Some(mended);
                }
            }
            before = settled;
        }
        Err(format!(
            "none of the {TRIED} cheapest choices holds in full"
        ))
    }

    /// What the choice in the design costs and takes, where it holds.
    fn hand(&self, d: &Design, settled: &[Settled]) -> Option<(f64, Vec<usize>)> {
        let taken = self.taken(&d.choice)?;
        let broken = cuts::broken(d, settled, &self.options, &self.asks);
        let holds = broken.is_empty() && self.program.keeps(&taken);
        holds.then(|| (self.program.cost(&taken), taken))
    }

    fn forbid(
        &mut self,
        d: &mut Design,
        full: &[Settled],
        found: &Found,
        broken: &Broken,
    ) -> Result<(), String> {
        match cuts::forbid(d, full, (&self.options, &found.taken), broken) {
            Forbids::Row(row) => {
                self.program.rows.push(row);
                Ok(())
            }
            Forbids::Cut(cut) if cut.0.is_empty() => Err("no larger wire mends it".to_owned()),
            Forbids::Cut(cut) => {
                self.program.cuts.push(cut);
                Ok(())
            }
            Forbids::Never(need) => {
                self.program.needs.push(need);
                Ok(())
            }
        }
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
        wires.chain(fuses).collect()
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
