//! One fault in one state: looked at, followed in time, judged, told.

use super::judge::{self, Evidence, Facts, Outcome};
use super::kind::overload;
use super::look::look;
use super::timed::{self, Moment, Timed};
use super::{Case, words};
use crate::answers::Answers;
use crate::change::{Change, Spot};
use crate::design::Design;
use crate::settle::Settled;
use loom::{Loom, PartId, WireId};

/// A fault in the state in which it ends worst.
#[derive(Clone, Debug)]
pub struct Trial {
    /// The case: index into [`super::Tries::cases`].
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
    /// The heat that poor joints make beyond what they made when sound, W.
    pub joint_w: f64,
    /// Whether nothing carried more than it was sized for.
    pub cool: bool,
    /// Fuses that must have opened, in order, and when, s.
    pub opened: Vec<(PartId, f64)>,
}

/// A trial, with what only this room asks of it.
pub(super) struct Tried {
    pub trial: Trial,
    /// What the fuse that opens first felt right after the fault, A.
    pub rush: f64,
    /// Moment by moment, if that was asked for.
    pub moments: Vec<Moment>,
}

/// Keeps the trial that ends worst.
pub(super) fn keep_worst(worst: &mut Option<Trial>, trial: Trial) {
    if worst.as_ref().is_none_or(|w| beats(&trial, w)) {
        *worst = Some(trial);
    }
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
pub(super) fn one(
    d: &Design,
    answers: &Answers,
    case: &Case,
    (index, change): (usize, usize),
    keeps: bool,
) -> Tried {
    let answer = &answers.states[index];
    let (state, whole) = (&answer.state, &answer.settled);
    let changed = overload::beside_others(case.changes[change], &case.fuses, whole);
    if idle(d, whole, &changed) {
        return Tried {
            trial: untouched(case, (index, change)),
            rush: 0.0,
            moments: Vec::new(),
        };
    }
    let first = look(d, state, changed, (&answers.heat, whole));
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
        change: &changed,
        state,
        whole,
        first: &onset,
        last: &last,
        timed: &timed,
    };
    let (outcome, facts) = judge::judge(&evidence);
    let comes = words::comes(&evidence, outcome, &facts);
    let says = format!("{}: {comes}", case.says);
    let rush = facts.opens.map_or(0.0, |(fuse, _)| felt(&onset, fuse));
    Tried {
        trial: trial((index, change), (outcome, facts), timed, (says, comes)),
        rush,
        moments,
    }
}

/// What a fuse feels, A.
pub(super) fn felt(settled: &Settled, fuse: PartId) -> f64 {
    settled.part_amps[fuse.0 as usize].abs()
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

/// A voltage that drives nothing anywhere, V: more than the joints of a loom at rest differ by. Our own, no source.
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
        joint_w: 0.0,
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
        seconds: facts.harmed.map(|h| h.seconds).or(facts.opens.map(|o| o.1)),
        harmed: facts.harmed.map(|h| h.wire),
        peak: timed.peak.map(|(wire, kelvin)| (wire, kelvin - 273.15)),
        unasked: facts.unasked,
        dead: facts.dead,
        harms: facts.harms,
        sooner: facts.sooner,
        says,
        comes,
        trouble: timed.trouble,
        joint_w: facts.joint_w,
        cool: timed.cool,
        opened: timed.opened,
    }
}
