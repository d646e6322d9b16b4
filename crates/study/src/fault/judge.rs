//! The outcome of a fault in a state: from the healthy state, the first look, the last look and what came between.

use super::Case;
use super::look::Look;
use super::timed::{Harm, Timed};
use crate::answers::Answers;
use crate::change::Change;
use crate::design::Design;
use crate::on::{load_on, unasked, weak};
use crate::settle::Settled;
use crate::state::State;
use loom::{PartId, PartKind};
use plan::{LampKind, LoadKind, SupplyState};
use quantity::Quantity;

/// What comes of a fault; the worst first.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Outcome {
    /// A wire passes its damage limit before anything opens.
    Overheats,
    /// Something is on that nobody asked for.
    Unasked,
    /// Another fuse than the nearest opens.
    WrongFuse,
    /// The right fuse opens, but late.
    OpensLate,
    /// A load gets a voltage that harms it.
    HarmsLoad,
    /// Something is drawn from the battery while parked.
    Drains,
    /// The right fuse opens in time.
    Opens,
    /// A load is lost.
    Dead,
    /// Nothing.
    Nothing,
}

impl Outcome {
    /// Every one, the worst first.
    pub const ALL: [Self; 9] = [
        Self::Overheats,
        Self::Unasked,
        Self::WrongFuse,
        Self::OpensLate,
        Self::HarmsLoad,
        Self::Drains,
        Self::Opens,
        Self::Dead,
        Self::Nothing,
    ];

    /// Its word.
    pub fn word(self) -> &'static str {
        match self {
            Self::Overheats => "overheats",
            Self::Unasked => "unasked",
            Self::WrongFuse => "wrong-fuse",
            Self::OpensLate => "opens-late",
            Self::HarmsLoad => "harms-load",
            Self::Drains => "drains",
            Self::Opens => "opens",
            Self::Dead => "dead",
            Self::Nothing => "nothing",
        }
    }

    /// What it means.
    pub fn means(self) -> &'static str {
        match self {
            Self::Overheats => "a wire passes its damage limit before anything opens",
            Self::Unasked => "something is on that nobody asked for",
            Self::WrongFuse => "another fuse than the nearest opens first",
            Self::OpensLate => "the nearest fuse opens, but takes long",
            Self::HarmsLoad => "a load gets a voltage that may harm it",
            Self::Drains => "the battery drains while parked",
            Self::Opens => "the nearest fuse opens in time",
            Self::Dead => "a load is lost",
            Self::Nothing => "nobody notices anything",
        }
    }
}

/// What was found, beside the outcome itself.
#[derive(Clone, Debug, Default)]
pub(super) struct Facts {
    /// The wire that overheats.
    pub harmed: Option<Harm>,
    /// The wire that is worn out in the end, if nobody notices.
    pub wears: Option<Harm>,
    /// The fuse that opens first, and when, s.
    pub opens: Option<(PartId, f64)>,
    /// Fuses that may open before it.
    pub sooner: Vec<PartId>,
    /// On unasked.
    pub unasked: Vec<PartId>,
    /// Asked for and not on, or too weak.
    pub dead: Vec<PartId>,
    /// At a voltage that harms it, V.
    pub harms: Vec<(PartId, f64)>,
    /// Drawn from the parked battery beyond what was, A.
    pub drains: f64,
    /// What a battery that is shorted itself gives, A.
    pub shorts: Option<f64>,
    /// The heat that poor joints make beyond what they made when sound, W.
    pub joint_w: f64,
}

/// Everything that is judged by.
pub(super) struct Evidence<'a> {
    pub d: &'a Design<'a>,
    pub answers: &'a Answers,
    pub case: &'a Case,
    pub change: &'a Change,
    pub state: &'a State,
    pub whole: &'a Settled,
    pub first: &'a Settled,
    pub last: &'a Look,
    pub timed: &'a Timed,
}

/// The outcome and what it stands on.
pub(super) fn judge(e: &Evidence) -> (Outcome, Facts) {
    let last = &e.last.settled;
    let new = |found: Vec<PartId>, before: &[PartId]| -> Vec<PartId> {
        found.into_iter().filter(|p| !before.contains(p)).collect()
    };
    let burns = e.d.limits.value("burns within");
    let mut facts = Facts {
        harmed: e.timed.harmed.filter(|h| h.seconds <= burns),
        wears: e.timed.harmed.filter(|h| h.seconds > burns),
        opens: e.timed.opened.first().copied(),
        unasked: new(unasked(e.d, e.state, last), &unasked(e.d, e.state, e.whole)),
        dead: new(lost(e.d, e.state, last), &lost(e.d, e.state, e.whole)),
        ..Facts::default()
    };
    facts.sooner = sooner(e, &facts);
    facts.harms = harmed_loads(e);
    facts.drains = drained(e);
    facts.shorts = shorted(e);
    facts.joint_w = joint_watts(e);
    (outcome(e, &facts), facts)
}

fn outcome(e: &Evidence, facts: &Facts) -> Outcome {
    if facts.harmed.is_some() || facts.shorts.is_some() {
        return Outcome::Overheats;
    }
    if !facts.unasked.is_empty() {
        return Outcome::Unasked;
    }
    if let Some((fuse, seconds)) = facts.opens {
        let right = e.case.fuses.is_empty() || e.case.fuses.contains(&fuse);
        let late = !e.case.slow && seconds > e.d.limits.value("late opening");
        return match (right, late) {
            (false, _) => Outcome::WrongFuse,
            (true, true) => Outcome::OpensLate,
            (true, false) if !facts.harms.is_empty() => Outcome::HarmsLoad,
            (true, false) => Outcome::Opens,
        };
    }
    if !facts.harms.is_empty() {
        return Outcome::HarmsLoad;
    }
    if facts.drains > e.d.limits.value("drains above") {
        return Outcome::Drains;
    }
    match facts.dead.is_empty() {
        true => Outcome::Nothing,
        false => Outcome::Dead,
    }
}

/// Loads that are asked for and not on, or get less than they work at.
fn lost(d: &Design, state: &State, s: &Settled) -> Vec<PartId> {
    let mut found = Vec::new();
    for (i, c) in d.loom.circuits.iter().enumerate() {
        if state.asks(d.loom, i) {
            found.extend(c.loads.iter().copied().filter(|l| !load_on(d, s, *l)));
        }
    }
    found.extend(weak(d, state, s, |_| true).map(|w| w.load));
    found.sort_unstable();
    found.dedup();
    found
}

/// Fuses that may open before the first that must.
fn sooner(e: &Evidence, facts: &Facts) -> Vec<PartId> {
    let Some((fuse, seconds)) = facts.opens else {
        return Vec::new();
    };
    let may = e.timed.soonest.iter();
    may.filter(|(part, soonest)| **part != fuse && **soonest < seconds)
        .map(|(part, _)| *part)
        .collect()
}

/// Loads above the voltage that they bear, or the wrong way round, right after the fault or at its end.
fn harmed_loads(e: &Evidence) -> Vec<(PartId, f64)> {
    let d = e.d;
    let most = d.limits.value("highest volts of equipment") * d.nominal() / 12.0;
    let reversed = d.limits.value("bears reversed");
    let mut found = Vec::new();
    for load in d.loom.circuits.iter().flat_map(|c| &c.loads) {
        let p = d.loom.part(*load);
        let PartKind::Load(l) = &p.kind else { continue };
        let electronic = matches!(
            l.kind,
            LoadKind::Electronics | LoadKind::Socket | LoadKind::Lamp(LampKind::Led)
        );
        let one_way = electronic || l.kind == LoadKind::Motor;
        // Heaters and motors bear a while of it; what a plan says of a load holds for all.
        let bears = match l.highest {
            Some(said) => said.si(),
            None if electronic || l.kind == LoadKind::Lamp(LampKind::Tungsten) => most,
            None => f64::INFINITY,
        };
        let worse = |v: f64| v > bears * (1.0 + 1e-3) || (one_way && v < -reversed);
        let seen = [e.first, &e.last.settled].map(|s| s.across(p.pins[0], p.pins[1]));
        let was = e.whole.across(p.pins[0], p.pins[1]);
        let bad = seen.into_iter().find(|v| worse(*v) && !worse(was));
        found.extend(bad.map(|v| (*load, v)));
    }
    found
}

/// What the battery gives where nothing opens and nothing that is followed warms, far more than its own rating for
/// cranking: its posts are joined.
fn shorted(e: &Evidence) -> Option<f64> {
    let given = e.last.settled.given;
    let joined = e.timed.cool && given > e.d.supply.cranking.max(100.0);
    (joined && e.case.changes.iter().all(|c| c.touch.is_some())).then_some(given)
}

/// The heat that poor joints make at the end, W.
fn joint_watts(e: &Evidence) -> f64 {
    let Some((poor, more)) = e.change.joint else {
        return 0.0;
    };
    let amps = e.last.settled.through_joint(poor);
    amps * amps * more
}

/// What the parked battery gives beyond what it gave, A.
fn drained(e: &Evidence) -> f64 {
    if e.state.supply != SupplyState::Parked || e.state.turned_on(e.d.loom) > 0 {
        return 0.0;
    }
    e.last.settled.given - e.whole.given
}
