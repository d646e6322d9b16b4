//! Every fault tried, in every state that matters to it, and one of them in detail.

use super::judge::{self, Evidence, Facts, Outcome};
use super::kind;
use super::look::look;
use super::timed::{self, Moment, Timed};
use super::{Case, states, words};
use crate::answers::Answers;
use crate::change::{Change, Spot};
use crate::design::{Design, Habits};
use crate::settle::Settled;
use crate::state::State;
use loom::{Loom, PartId, WireId};
use quantity::Quantity;
use rayon::prelude::*;
use stock::Stock;

/// A fault in the state in which it ends worst.
#[derive(Clone, Debug)]
pub struct Trial {
    /// The case: index into [`Tries::cases`].
    pub case: usize,
    /// The state, index into the answers' states.
    pub state: usize,
    /// Which of the case's changes.
    pub change: usize,
    /// What comes of it.
    pub outcome: Outcome,
    /// The fuse that opens first.
    pub opens: Option<PartId>,
    /// Until it opens, or until a wire is harmed, s.
    pub seconds: Option<f64>,
    /// The wire that is harmed.
    pub harmed: Option<WireId>,
    /// The hottest wire that warmed beyond its usual, and how hot, °C.
    pub peak: Option<(WireId, f64)>,
    /// On unasked.
    pub unasked: Vec<PartId>,
    /// Loads lost.
    pub dead: Vec<PartId>,
    /// Loads at a voltage that harms them, V.
    pub harms: Vec<(PartId, f64)>,
    /// Fuses that may open before the first that must.
    pub sooner: Vec<PartId>,
    /// What happened and what comes of it, in a sentence.
    pub says: String,
    /// Only what comes of it.
    pub comes: String,
    /// Why it could not be followed to its end.
    pub trouble: Option<String>,
    /// Whether nothing carried more than it was sized for.
    pub cool: bool,
    /// Fuses that must have opened, in order, and when, s.
    pub opened: Vec<(PartId, f64)>,
}

/// Every fault.
#[derive(Clone, Debug)]
pub struct Tries {
    /// What was tried.
    pub cases: Vec<Case>,
    /// By case: its worst trial; none where no state that matters came to rest.
    pub worst: Vec<Option<Trial>>,
    /// How many were looked at: faults, each in its states, each with its contact resistances.
    pub tried: usize,
    /// How many more are the same to the circuit, or the same in another state.
    pub collapsed: usize,
}

impl Tries {
    /// Trials by outcome, the worst first; within one in the order of the kinds.
    pub fn by_outcome(&self) -> Vec<&Trial> {
        let mut all: Vec<&Trial> = self.worst.iter().flatten().collect();
        all.sort_by_key(|t| (t.outcome, t.case));
        all
    }
}

/// One trial with its moments.
#[derive(Clone, Debug)]
pub struct Detail {
    /// The case.
    pub case: Case,
    /// The trial; its `case` is 0.
    pub trial: Trial,
    /// Fuses that must have opened, and when, s.
    pub opened: Vec<(PartId, f64)>,
    /// What happened, moment by moment.
    pub moments: Vec<Moment>,
}

/// A design as answered, for trying.
pub(crate) fn designed<'a>(
    loom: &'a Loom,
    stock: &'a Stock,
    habits: &'a Habits,
    answers: &Answers,
) -> Design<'a> {
    let mut d = Design::new(loom, stock, habits);
    d.choice = answers.choice.clone();
    d
}

/// Tries every fault. `told` hears how many cases are done, of how many.
pub fn tries(
    loom: &Loom,
    stock: &Stock,
    habits: &Habits,
    answers: &Answers,
    told: &(dyn Fn(usize, usize) + Sync),
) -> Tries {
    let all = &|_: &Case| true;
    tries_of((loom, stock), habits, answers, all, told)
}

/// The same of some faults only.
pub fn tries_of(
    (loom, stock): (&Loom, &Stock),
    habits: &Habits,
    answers: &Answers,
    wanted: &dyn Fn(&Case) -> bool,
    told: &(dyn Fn(usize, usize) + Sync),
) -> Tries {
    let d = designed(loom, stock, habits, answers);
    let (mut cases, alike) = kind::all(&d);
    cases.retain(wanted);
    let rests = resting(answers);
    let done = std::sync::atomic::AtomicUsize::new(0);
    let all: Vec<(Option<Trial>, usize)> = cases
        .par_iter()
        .enumerate()
        .map(|(index, case)| {
            let found = worst(&d, answers, (index, case), &rests);
            let n = 1 + done.fetch_add(1, std::sync::atomic::Ordering::Relaxed);
            told(n, cases.len());
            found
        })
        .collect();
    let tried = all.iter().map(|(_, n)| n).sum();
    let changes: usize = cases.iter().map(|c| c.changes.len()).sum();
    Tries {
        collapsed: ((changes + alike) * rests.len()).saturating_sub(tried),
        worst: all.into_iter().map(|(trial, _)| trial).collect(),
        tried,
        cases,
    }
}

/// States that can be tried in.
fn resting(answers: &Answers) -> Vec<(usize, &State)> {
    let each = answers.states.iter().enumerate();
    each.filter(|(_, s)| s.settled.rests())
        .map(|(i, s)| (i, &s.state))
        .collect()
}

/// A case in all its states, and how many trials that took.
fn worst(
    d: &Design,
    answers: &Answers,
    (index, case): (usize, &Case),
    rests: &[(usize, &State)],
) -> (Option<Trial>, usize) {
    let swapped = case.swapped.and_then(|fuse| with_larger(d, answers, fuse));
    let d = swapped.as_ref().unwrap_or(d);
    let mut worst: Option<Trial> = None;
    let mut tried = 0;
    let mut was_mild = false;
    for chosen in states::matter(d, case, rests) {
        let state = chosen.state;
        if chosen.follows && was_mild && case.ranges() && !at_rest(d, answers, state) {
            continue;
        }
        let mut ends: Vec<(Outcome, f64)> = Vec::new();
        for change in 0..case.changes.len() {
            if case.ranges() && alike(&ends) {
                break;
            }
            let (mut trial, _) = one(d, answers, case, (state, change), false);
            tried += 1;
            trial.case = index;
            let cool = trial.cool;
            ends.push((trial.outcome, trial.seconds.unwrap_or(0.0)));
            was_mild = (cool || mild(d, &trial)) && (change == 0 || was_mild);
            if worst.as_ref().is_none_or(|w| beats(&trial, w)) {
                worst = Some(trial);
            }
            // Where nothing is loaded with the least resistance, more of it loads nothing either.
            if cool && case.ranges() {
                break;
            }
        }
    }
    (worst, tried)
}

/// Opened so soon, with no wire above its class temperature, that with the engine off, when a short gets no less than
/// half as much, it opens in time as well and harms nothing: where this is over within the last gate of a blade, that
/// is over within the gate at 350 %, on less than twice the I²t.
fn mild(d: &Design, trial: &Trial) -> bool {
    let class = |w: WireId| d.insulation(d.conductor(w)).limit.si() - 273.15;
    let within = trial
        .peak
        .is_none_or(|(wire, celsius)| celsius <= class(wire));
    let soon = trial.seconds.is_some_and(|s| s <= MILD_S);
    trial.outcome == Outcome::Opens && trial.sooner.is_empty() && soon && within
}

/// The last gate of a blade fuse, s.
const MILD_S: f64 = 0.1;

/// Two ends of a range that end alike, and about as soon: what lies between does too.
fn alike(ends: &[(Outcome, f64)]) -> bool {
    let [(least, soon), (most, late)] = ends else {
        return false;
    };
    least == most && (soon.max(*late) < QUICK_S || (soon / late).max(late / soon) < SOON)
}

/// Where both ends are over sooner than this, s, what lies between is over in seconds at most.
const QUICK_S: f64 = 0.5;
/// Times that differ by less are about the same.
const SOON: f64 = 2.0;

/// Parked with nothing on: a drain shows only there.
fn at_rest(d: &Design, answers: &Answers, state: usize) -> bool {
    let s = &answers.states[state].state;
    s.supply == plan::SupplyState::Parked && s.turned_on(d.loom) == 0
}

/// The same design with the next size of a fuse in its place.
fn with_larger<'a>(d: &Design<'a>, answers: &Answers, fuse: PartId) -> Option<Design<'a>> {
    let mut larger = designed(d.loom, d.stock, d.habits, answers);
    larger.choice.fuses[fuse.0 as usize].as_mut()?.rating += 1;
    Some(larger)
}

/// Whether a trial ends worse than another: by its outcome; then whatever burns sooner, opens later, gets hotter.
fn beats(a: &Trial, b: &Trial) -> bool {
    if a.outcome != b.outcome {
        return a.outcome < b.outcome;
    }
    let seconds = |t: &Trial| t.seconds.unwrap_or(0.0);
    match a.outcome {
        Outcome::Overheats => seconds(a) < seconds(b),
        Outcome::Opens | Outcome::OpensLate | Outcome::WrongFuse => seconds(a) > seconds(b),
        Outcome::Unasked => a.unasked.len() > b.unasked.len(),
        Outcome::HarmsLoad => a.harms.len() > b.harms.len(),
        _ => a.dead.len() > b.dead.len(),
    }
}

/// One case in one state.
fn one(
    d: &Design,
    answers: &Answers,
    case: &Case,
    (index, change): (usize, usize),
    keeps: bool,
) -> (Trial, Vec<Moment>) {
    let answer = &answers.states[index];
    let (state, whole) = (&answer.state, &answer.settled);
    if idle(d, whole, &case.changes[change]) {
        return (untouched(case, (index, change)), Vec::new());
    }
    let first = look(d, state, case.changes[change], (&answers.heat, whole));
    let failure = first.settled.failure.clone();
    let onset = first.settled.without_model();
    let (last, mut timed) = match failure {
        None => timed::follow(d, answers, (state, case.lasts), (first, keeps)),
        Some(why) => {
            let trouble = Some(why);
            let timed = Timed {
                trouble,
                ..Timed::default()
            };
            (first, timed)
        }
    };
    let moments = std::mem::take(&mut timed.moments);
    let evidence = Evidence {
        d,
        answers,
        case,
        change: &case.changes[change],
        state,
        whole,
        first: &onset,
        last: &last,
        timed: &timed,
    };
    let (outcome, facts) = judge::judge(&evidence);
    let comes = words::comes(&evidence, outcome, &facts);
    let says = format!("{}: {comes}", case.says);
    (
        trial((index, change), (outcome, facts), timed, (says, comes)),
        moments,
    )
}

/// Whether what touches has no voltage between it: no current flows, nothing changes.
fn idle(d: &Design, whole: &Settled, change: &Change) -> bool {
    let Some(touch) = change.touch else {
        return false;
    };
    whole
        .between(|spot| ends(d.loom, spot), touch.a, touch.b)
        .is_some_and(|volts| volts.abs() < NO_VOLTS)
}

/// The pins at both ends of a spot's wire, or its own pin.
fn ends(loom: &Loom, spot: Spot) -> [loom::PinId; 2] {
    match spot {
        Spot::Pin(pin) => [pin, pin],
        Spot::Middle(wire) => [loom.wire(wire).from, loom.wire(wire).to],
    }
}

/// A voltage that drives nothing anywhere, V: what the joints of a loom at rest differ by.
const NO_VOLTS: f64 = 1e-3;

fn untouched(case: &Case, (state, change): (usize, usize)) -> Trial {
    Trial {
        case: 0,
        state,
        change,
        outcome: Outcome::Nothing,
        opens: None,
        seconds: None,
        harmed: None,
        peak: None,
        unasked: Vec::new(),
        dead: Vec::new(),
        harms: Vec::new(),
        sooner: Vec::new(),
        says: format!("{}: no current flows there", case.says),
        comes: "no current flows there".to_owned(),
        trouble: None,
        cool: true,
        opened: Vec::new(),
    }
}

fn trial(
    (state, change): (usize, usize),
    (outcome, facts): (Outcome, Facts),
    timed: Timed,
    (says, comes): (String, String),
) -> Trial {
    Trial {
        case: 0,
        state,
        change,
        outcome,
        opens: facts.opens.map(|o| o.0),
        seconds: facts.harmed.map(|h| h.1).or(facts.opens.map(|o| o.1)),
        harmed: facts.harmed.map(|h| h.0),
        peak: timed.peak.map(|(wire, kelvin)| (wire, kelvin - 273.15)),
        unasked: facts.unasked,
        dead: facts.dead,
        harms: facts.harms,
        sooner: facts.sooner,
        says,
        comes,
        trouble: timed.trouble,
        cool: timed.cool,
        opened: timed.opened,
    }
}

/// A case in a state, or in the one in which it ends worst, with its moments.
pub fn detail(
    loom: &Loom,
    stock: &Stock,
    habits: &Habits,
    answers: &Answers,
    (case, state): (&Case, Option<usize>),
) -> Option<Detail> {
    let d = designed(loom, stock, habits, answers);
    let swapped = case.swapped.and_then(|fuse| with_larger(&d, answers, fuse));
    let tried = swapped.as_ref().unwrap_or(&d);
    let rests = match state {
        Some(state) => vec![(state, &answers.states.get(state)?.state)],
        None => resting(answers),
    };
    let (kept, _) = match state {
        // A state that somebody asks for is tried whether or not it is among those that matter.
        Some(state) => {
            let each =
                (0..case.changes.len()).map(|c| one(tried, answers, case, (state, c), false).0);
            let mut worst: Option<Trial> = None;
            for trial in each {
                if worst.as_ref().is_none_or(|w| beats(&trial, w)) {
                    worst = Some(trial);
                }
            }
            (worst, 0)
        }
        None => worst(&d, answers, (0, case), &rests),
    };
    let kept = kept?;
    let (trial, moments) = one(tried, answers, case, (kept.state, kept.change), true);
    Some(Detail {
        case: case.clone(),
        opened: trial.opened.clone(),
        trial,
        moments,
    })
}
