//! From one choice to the next: the problem's answer is tried in the full model, and what breaks there is forbidden, until
//! an answer holds. The best choice known so far is in hand: what can't be better is left out, and the best is first
//! sought among the options where it is likely; only where these have nothing better, among all.

use super::cuts::{self, Broken, Forbids};
use super::program::{Cut, Found, Nothing, Open, Step};
use super::within::{Within, within};
use super::{Problem, Sizing, settled};
use crate::design::Design;
use crate::settle::Settled;
use crate::size::search;
use crate::state::State;

/// Choices that are tried in the full model before it is left at a bound.
const TRIED: usize = 120;
/// A choice that breaks no more than this is mended, for a better one in hand.
const MENDED: usize = 6;
/// Options that no choice has which gains this part of what may be gained are unlikely.
const LIKELY: f64 = 0.7;
/// A cost that differs by no more than this part is the same.
const SAME: f64 = 1e-9;

/// A choice that holds in the full model: what it costs, and what is taken.
type Hand = Option<(f64, Vec<usize>)>;

/// Why a search that ran out of nodes stopped.
fn long_enough() -> String {
    "the search was long enough".to_owned()
}

/// The options that are worth looking at.
#[derive(Default)]
struct Scope {
    /// What is known of each option, if a choice is in hand.
    within: Option<Within>,
    /// Those that a choice better than the one in hand may take.
    open: Open,
    /// Whether all of these are looked at, not just the likely ones.
    whole: bool,
}

impl Scope {
    /// Narrows a problem to what is worth looking at. Whether some of what may hold the best was left out.
    fn narrow(&mut self, problem: &mut Problem, hand: &Hand) -> bool {
        let program = &mut problem.program;
        program.may.clone_from(&self.open);
        let Some((cost, taken)) = hand else {
            return false;
        };
        self.within = within(program, *cost, self.within.as_ref());
        let Some(within) = &self.within else {
            return false;
        };
        self.open = within.open();
        program.may.clone_from(&self.open);
        if !self.whole {
            program.may = within.likely(LIKELY);
        }
        for (may, k) in program.may.iter_mut().zip(taken) {
            may[*k] = true;
        }
        program.may != self.open
    }
}

impl Problem {
    /// Solves, tries in the full model and cuts off, until what is found holds there. Why there is nothing better than
    /// the rough sizes, if there is not.
    pub(super) fn search(
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
            // What was found on the way is better than what it began with.
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
        hand: &mut Hand,
    ) -> Result<Vec<Settled>, String> {
        let mut before = rough.to_vec();
        // Somewhere to start from where nothing is in hand: the roomiest.
        let widest: Vec<usize> = self.program.things.iter().map(|t| t.len() - 1).collect();
        let mut scope = Scope::default();
        while sizing.tried < TRIED {
            let part = scope.narrow(self, hand);
            let start = hand.as_ref().map_or(&widest[..], |(_, taken)| &taken[..]);
            let found = match self.program.solve(*left, Some(start)) {
                Ok(found) => found,
                Err(Nothing::Impossible) => return Err("no choice holds every rule".to_owned()),
                Err(Nothing::GaveUp(why)) => return Err(why),
            };
            *left = left.saturating_sub(found.nodes);
            sizing.nodes += found.nodes;
            let same = |(cost, _): &(f64, _)| found.cost > cost * (1.0 - SAME);
            if part && hand.as_ref().is_some_and(same) && *left > 0 {
                scope.whole = true;
                continue;
            }
            scope.whole = false;
            sizing.tried += 1;
            // A bound says something of what is in hand; where nothing that holds is, it says nothing.
            let bound = match &scope.within {
                Some(within) if part => within.bound,
                _ => found.bound,
            };
            let least = |(cost, _): &(f64, _)| (bound / cost).min(1.0);
            sizing.bound = hand.as_ref().map_or(0.0, least);
            self.take(d, &found.taken);
            let settled = settled(d, states, &before);
            let broken = cuts::broken(d, &settled, &self.options, &self.asks);
            if broken.is_empty() && part && *left > 0 {
                *hand = Some((found.cost, found.taken));
                before = settled;
                scope.whole = true;
                continue;
            }
            if broken.is_empty() {
                sizing.bound = bound / found.cost;
                if part || !found.proved {
                    sizing.unproved = Some(long_enough());
                }
                return Ok(settled);
            }
            if *left == 0 {
                return Err(long_enough());
            }
            for b in &broken {
                self.forbid(d, (states, &settled), (&found, hand), b)?;
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

    /// Forbids what was found, for what it breaks.
    fn forbid(
        &mut self,
        d: &mut Design,
        (states, full): (&[State], &[Settled]),
        (found, hand): (&Found, &Hand),
        broken: &Broken,
    ) -> Result<(), String> {
        let forbids = cuts::forbid(d, (states, full), (&self.options, &found.taken), broken);
        // What is in hand holds; a row that says otherwise is wrong, and only what was found is forbidden.
        let keeps = hand.as_ref().is_none_or(|(_, taken)| forbids.keeps(taken));
        match forbids {
            _ if !keeps => self.program.cuts.push(self.other(&found.taken)),
            Forbids::Row(row) => self.program.rows.push(row),
            Forbids::Cut(cut) if cut.0.is_empty() => {
                return Err("no larger wire mends it".to_owned());
            }
            Forbids::Cut(cut) => self.program.cuts.push(cut),
            Forbids::Never(need) => self.program.needs.push(need),
        }
        Ok(())
    }

    /// A step away from a choice, in whatever thing.
    fn other(&self, taken: &[usize]) -> Cut {
        let mut steps = Vec::new();
        for (t, k) in taken.iter().enumerate() {
            if *k > 0 {
                steps.push(Step::Down(t, *k));
            }
            if k + 1 < self.options.count(t) {
                steps.push(Step::Up(t, k + 1));
            }
        }
        Cut(steps)
    }
}
