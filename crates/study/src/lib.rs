//! `study`: from a loom to answers. Takes a [`loom::Loom`] and a [`stock::Stock`], sizes every wire
//! and fuse, solves currents and temperatures, and gives [`Answers`]: what was chosen and why, what
//! each wire, fuse and load sees, and the findings.
//!
//! Absent from this room: how any of it is shown, files, plans' text.

mod amiss;
mod answers;
mod bundles;
mod chafe;
mod change;
mod combine;
mod compare;
mod coordination;
mod cutouts;
mod cutting;
mod deck;
mod design;
mod duty;
mod ends;
mod fall;
mod fault;
mod finding;
mod first;
mod fit;
mod fixed;
mod fuse;
mod heat;
mod insulation;
mod laid;
mod laying;
mod limits;
mod lists;
mod load;
mod look;
mod lost;
mod network;
mod on;
mod overload;
mod paths;
pub mod prove;
mod recalled;
mod relays;
mod resized;
mod settle;
mod size;
mod slow;
mod sneak;
mod solve;
mod state;
mod steps;
mod supply;
mod supply_side;
mod survey;
mod switchgear;
mod why;

pub use amiss::{Amiss, Beside, Trouble, UNSOLVED_MEND};
pub use answers::{Answers, FuseAnswer, LoadAnswer, PartAnswer, StateAnswer, WireAnswer};
pub use bundles::Bundle;
pub use chafe::{Chafe, Touch};
pub use change::{Change, Spot};
pub use combine::Tried;
pub use compare::{Comparison, Side, compare};
pub use coordination::{Coordination, Protection, Selective, protection};
pub use cutting::{Cutting, Uncut, cut};
pub use design::{Choice, FuseChoice, Habits};
pub use fall::{Fall, FallIn, falls};
pub use fault::{
    Asked, Case as FaultCase, Detail as FaultDetail, FaultFinding, KINDS as FAULTS,
    Kind as FaultKind, Moment, Outcome, Supplies, TOLD, Told, Trial, Tries, cases, detail,
    fuse_words, is_hazard, time as time_words, told, tries,
};
pub use finding::{About, LIST};
pub use first::{Reading, first_reading};
pub use fit::{
    Cover, Fit, MOST_RINGS, Plug, Stud, Termination, Way, WireEnd, end_words, label_words,
    terminal_words, ways,
};
pub use heat::Heat;
pub use insulation::Insulated;
pub use laid::{Hole, How, Laid, Pass, Passing, insulation_gap};
pub use laying::{bare_hole, bend_radius, labels, shrink_cut, supports_between};
pub use limits::{Limit, LimitOf, Limits};
pub use lists::{Amount, Buy, Lists, Piece as CutPiece, Spools, lists};
pub use look::{Chosen, look};
pub use lost::Lost;
pub use network::{Element, Model, Piece};
pub use plan::SupplyState;
pub use recalled::Recalled;
pub use relays::Flip;
pub use resized::{Resized, resized};
pub use settle::Settled;
pub use size::{Sizing, Verdict, Weighed};

/// Sizing as it is handed to a solver.
pub mod problem {
    pub use crate::size::{Cut, Kind, Need, Posed, Program, Row, Step};
}

pub use sneak::{Direction, Pulled, Sneak, Step};
pub use state::{Position, State};
pub use steps::{Sight as StepSight, Stage, Step as BuildStep, steps};
pub use supply::*;
pub use survey::{Seen, Sight};

use answers::Studied;
use design::Design;
use loom::{Loom, WireId};
use std::collections::BTreeMap;
use std::sync::Arc;
use stock::Stock;

/// Rounds of sizing for states that turned out to ask more; a second is seldom needed, and each adds at least
/// one state.
const ROUNDS: usize = 10;

/// Wires that had to be thicker than the quick rules had them: the least conductor, and what the next smaller breaks.
pub(crate) type Raised = BTreeMap<WireId, (usize, Verdict)>;

/// Raises each wire that its fuse is too slow for to the first size that bears it, or to the thickest there is.
/// Whether any could be.
fn raise(d: &mut Design, heat: &Heat, raised: &mut Raised, slow: &[slow::Slow]) -> bool {
    let mut any = false;
    for s in slow {
        let at = s.wire.0 as usize;
        let (list, now) = (d.candidates[at].clone(), d.choice.wires[at]);
        let place = list.iter().position(|c| *c == now).unwrap_or(0);
        let mut why = s.verdict.clone();
        let mut thicker = None;
        for next in &list[place + 1..] {
            d.choice.wires[at] = *next;
            thicker = Some((*next, why.clone()));
            match slow::again(d, heat, s.wire) {
                Some(still) => why = still.verdict,
                None => break,
            }
        }
        d.choice.wires[at] = now;
        if let Some(thicker) = thicker {
            raised.insert(s.wire, thicker);
            any = true;
        }
    }
    any
}

/// Studies a loom: size it, look at every state, judge it.
pub fn study(loom: &Loom, stock: &Stock, habits: &Habits) -> Answers {
    let mut sizing = combine::to_size(loom);
    let mut design = Design::new(loom, stock, habits);
    let mut raised = Raised::new();
    let supplies = combine::supplies(loom, design.supply.starter > 0.0);
    let mut sized = size::rough(&mut design, &sizing);
    let mut found = None;
    let mut nodes = size::nodes(loom.wires.len());
    let mut round = 1;
    let studied = loop {
        let (states, tried) =
            combine::states(loom, &design.paths, &sizing, &supplies, habits.survey);
        let heat = Arc::new(Heat::hottest_of(sized.iter().map(|s| &*s.heat)));
        let settled = survey::all(&design, &states, &heat);
        let mut more = survey::beyond(&design, &states, &settled, &sized);
        let warmer = survey::warmer(&design, &states, &settled, &sized);
        more.extend(survey::too_warm(&design, &warmer, &heat));
        let last = more.is_empty() || round == ROUNDS;
        // The best sizes are sought once the rough ones ask for no other state.
        if last && found.is_none() {
            let (settled, how) = size::best(&mut design, &sizing, sized, &mut nodes);
            (sized, found) = (settled, Some(how));
            continue;
        }
        // Following wires in time costs more than all else: once nothing else is left to size for.
        let slow = if last {
            slow::find(&design, &heat)
        } else {
            Vec::new()
        };
        let raises = raise(&mut design, &heat, &mut raised, &slow);
        if let Some(found) = found
            .clone()
            .filter(|_| (last && !raises) || round == ROUNDS)
        {
            let (sneaks, lost) = sneak::find(&design, &states, &settled, &heat, habits.survey);
            let mut amiss = cutouts::find(&design, &heat);
            amiss.extend(lost);
            break Studied {
                sneaks,
                amiss,
                unsized_for: more,
                heat: Arc::new(Heat::hottest_of(
                    std::iter::once(&*heat).chain(warmer.iter().map(|(_, h)| h)),
                )),
                slow,
                raised,
                states,
                settled: survey::with_networks(settled, &sized),
                sizing: sized,
                found,
                tried,
            };
        }
        let new = more.iter().map(|i| &states[*i]);
        let new: Vec<State> = new.filter(|s| !sizing.contains(s)).cloned().collect();
        sizing.extend(new);
        design = Design::new(loom, stock, habits);
        for (wire, (conductor, _)) in &raised {
            design.at_least(*wire, *conductor);
        }
        sized = size::rough(&mut design, &sizing);
        if found.is_some() {
            let (settled, how) = size::best(&mut design, &sizing, sized, &mut nodes);
            (sized, found) = (settled, Some(how));
        }
        round += 1;
    };
    let mut answers = answers::gather(&design, studied);
    answers.findings = finding::all(&design, &answers);
    answers
}

/// The whole-numbered problem that the sizes of a loom are found by, for those who want to solve it with another program:
/// for the states that size it at first, as it stood when its answer held.
pub fn posed(loom: &Loom, stock: &Stock, habits: &Habits) -> Option<problem::Posed> {
    let mut design = Design::new(loom, stock, habits);
    let states = combine::to_size(loom);
    let rough = size::rough(&mut design, &states);
    size::posed(&mut design, &states, &rough)
}

/// A studied state with its network, solved again where that was not kept.
pub fn with_network(
    loom: &Loom,
    stock: &Stock,
    habits: &Habits,
    answers: &Answers,
    state: usize,
) -> Option<StateAnswer> {
    let answer = answers.states.get(state)?;
    let design = Design::answered(loom, stock, habits, answers);
    Some(StateAnswer {
        state: answer.state.clone(),
        settled: with_network_of(&design, answers, answer),
    })
}

/// The same of a design that is at hand.
pub(crate) fn with_network_of(d: &Design, answers: &Answers, answer: &StateAnswer) -> Settled {
    if answer.settled.model.is_some() {
        return answer.settled.clone();
    }
    let from = Some(answer.settled.energised.as_slice());
    settle::glance(d, (&answer.state, Lost::Nothing), &answers.heat, from)
}

/// The network of a state as a deck for a circuit simulator, so that anyone can check the node voltages
/// with another program.
pub fn deck(loom: &Loom, state: &StateAnswer) -> String {
    deck::write(loom, state)
}
