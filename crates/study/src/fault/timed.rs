//! From the fault until nothing changes any more: wires warm, fuses open on the slow edge of their band, relays
//! drop out, and each time the network is looked at anew; until a wire passes its damage limit, all is cool, or
//! ten minutes are over. What goes on steadily then is reckoned on.

use super::borne::{Running, at_rest, borne};
use super::grid::Grid;
use super::hot::{self, Hot, Part, Warm};
use super::look::{Look, look};
use crate::answers::Answers;
use crate::change::Change;
use crate::design::Design;
use crate::relays;
use crate::settle::Settled;
use crate::state::State;
use loom::{PartId, WireId};
use physics::ageing::Bears;
use physics::warming::run::Care;
use physics::warming::{End, Run, Sample};
use std::collections::BTreeMap;
use std::ops::ControlFlow;

/// A moment of a fault, for its chart.
#[derive(Clone, Debug, Default)]
pub struct Moment {
    /// Since the fault, s.
    pub seconds: f64,
    /// Currents of the fuses whose clocks run, A.
    pub fuses: Vec<(PartId, f64)>,
    /// Hottest copper of the wires that warm, K, and their currents, A.
    pub wires: Vec<(WireId, f64, f64)>,
    /// Voltages across the loads, V.
    pub loads: Vec<(PartId, f64)>,
}

/// A wire that is harmed.
#[derive(Clone, Copy, Debug)]
pub(super) struct Harm {
    pub wire: WireId,
    /// When, s.
    pub seconds: f64,
    /// How hot it then is, K.
    pub kelvin: f64,
}

/// What came of a fault in time.
#[derive(Clone, Debug, Default)]
pub(super) struct Timed {
    /// Fuses that must have opened, in order, and when, s.
    pub opened: Vec<(PartId, f64)>,
    /// When each fuse may have opened at the soonest, s.
    pub soonest: BTreeMap<PartId, f64>,
    /// The wire that passed its limit before anything opened.
    pub harmed: Option<Harm>,
    /// The hottest wire of all, and how hot, K.
    pub peak: Option<(WireId, f64)>,
    /// Whether it goes on for ever as it is: no fuse need open, no wire passes its limit.
    pub lasts: bool,
    /// Part of its insulation's life that the wire lost that lost most.
    pub life: f64,
    /// Relays that dropped out on the way.
    pub dropped: Vec<PartId>,
    /// Whether nothing carried more than it was sized for.
    pub cool: bool,
    /// Why it could not be followed further.
    pub trouble: Option<String>,
    /// Its moments, if they were asked for.
    pub moments: Vec<Moment>,
}

/// Legs between changes that a fault is followed through; four fuses and as many relays are more than any has.
const MOST_LEGS: usize = 12;

/// A fault being followed.
struct Walk<'a> {
    d: &'a Design<'a>,
    answers: &'a Answers,
    state: &'a State,
    /// How long the fault lasts, s, if it does not stay.
    lasts: Option<f64>,
    keeps: bool,
    timed: Timed,
    seconds: f64,
    /// Temperatures of the wires that warmed before, so that they go on from there.
    kelvin: BTreeMap<(WireId, Part), Vec<f64>>,
    life: BTreeMap<(WireId, Part), f64>,
    /// Clocks of the fuses that ran before: slow and fast edge.
    rounds: BTreeMap<PartId, (f64, f64)>,
}

/// Follows a fault from its first look. Gives the last look with it.
pub(super) fn follow(
    d: &Design,
    answers: &Answers,
    (state, lasts): (&State, Option<f64>),
    (first, keeps): (Look, bool),
) -> (Look, Timed) {
    let mut walk = Walk {
        d,
        answers,
        state,
        lasts,
        keeps,
        timed: Timed::default(),
        seconds: 0.0,
        kelvin: BTreeMap::new(),
        life: BTreeMap::new(),
        rounds: BTreeMap::new(),
    };
    let mut now = first;
    let mut legs = 0;
    loop {
        if let Some(why) = &now.settled.failure {
            walk.timed.trouble = Some(why.clone());
            break;
        }
        if legs == MOST_LEGS {
            let changes = format!("it changes more than {MOST_LEGS} times");
            walk.timed.trouble = Some(changes);
            break;
        }
        legs += 1;
        let hot = hot::find(d, answers, &now);
        if hot.is_empty() {
            walk.timed.cool = walk.seconds == 0.0;
            break;
        }
        // What somebody looks at closely is followed all the same.
        if let Some(peak) = borne(d, answers, &now, &hot).filter(|_| !keeps) {
            walk.timed.lasts = true;
            if walk.timed.peak.is_none_or(|p| peak.1 > p.1) {
                walk.timed.peak = Some(peak);
            }
            break;
        }
        match walk.leg(&now, &hot) {
            Next::Look(change, energised) => {
                let before = Settled {
                    energised,
                    ..now.settled.without_model()
                };
                now = look(d, state, *change, (&answers.heat, &before));
            }
            Next::Done => break,
        }
    }
    (now, walk.timed)
}

/// What comes first as things go on.
#[derive(Clone, Copy)]
enum Then {
    /// This fuse opens.
    Opens(PartId),
    /// This wire is harmed, at this temperature, K.
    Harms(WireId, f64),
}

/// What follows a leg.
enum Next {
    /// Something changed: look again.
    Look(Box<Change>, Vec<bool>),
    /// Nothing more happens.
    Done,
}

impl Walk<'_> {
    /// Runs until something changes.
    fn leg(&mut self, now: &Look, hot: &Hot) -> Next {
        let Some(model) = &now.settled.model else {
            return Next::Done;
        };
        let Some(grid) = Grid::new(&now.settled, model, hot) else {
            self.timed.trouble = Some("the network gives no firm answer as wires warm".into());
            return Next::Done;
        };
        let (run, mut values) = self.start(hot, &now.change);
        let usual = self.d.limits.value("followed for");
        let left = self.lasts.unwrap_or(usual).min(usual) - self.seconds;
        let bears: Vec<Bears> = hot
            .wires
            .iter()
            .map(|w| hot::bears(self.d, w.wire))
            .collect();
        let mut last: Option<(f64, Vec<f64>)> = None;
        let mut amps: Vec<f64> = Vec::new();
        let mut rates: Vec<(f64, f64)> = Vec::new();
        let mut dropped: Vec<relays::Flip> = Vec::new();
        let mut used_up: Option<usize> = None;
        let (end, seconds) = {
            let mut watch = |s: Sample| {
                self.age(&run, hot, &bears, (&s, last.as_ref()));
                self.soonest(&run, hot, (&s, last.as_ref()));
                let from = last.as_ref().map_or(0.0, |l| l.0);
                let before = last.as_ref().map(|l| l.1.as_slice());
                rates = clock_rates(&run, s.values, before, s.seconds - from);
                last = Some((s.seconds, s.values.to_vec()));
                amps = s.amps.to_vec();
                if !grid.refresh() {
                    return ControlFlow::Break(());
                }
                let volts = grid.volts_by_pin();
                self.keep(&run, hot, &s, &volts);
                let spent = |w: &Warm| self.life[&(w.wire, w.part)] >= 1.0;
                used_up = hot.wires.iter().position(spent);
                dropped = relays::restless(self.d, (self.state, now.hold), &now.settled, volts);
                match dropped.is_empty() && used_up.is_none() {
                    true => ControlFlow::Continue(()),
                    false => ControlFlow::Break(()),
                }
            };
            run.go(
                &grid,
                &mut values,
                (left.max(1e-3), Care::default()),
                &mut watch,
            )
        };
        self.seconds += seconds;
        self.put_away(&run, hot, &values);
        match end {
            End::Opens(c) => self.opens(now, hot.fuses[c].part),
            End::Damaged(p, _) => self.harms(hot.wires[p].wire),
            End::Asked if used_up.is_some() => self.harms(hot.wires[used_up.unwrap_or(0)].wire),
            End::Asked if !dropped.is_empty() => {
                let mut energised = now.settled.energised.clone();
                for flip in dropped {
                    energised[flip.part.0 as usize] = flip.on;
                    self.timed.dropped.push(flip.part);
                }
                Next::Look(Box::new(now.change), energised)
            }
            // What is over by itself does no more.
            End::Over if self.lasts.is_some() => Next::Done,
            End::Over => self.reckon_on(now, hot, (&rates, &amps)),
            End::Asked => self.lost("the network could not be solved as wires warmed"),
            End::Lost(why) => self.lost(&why),
        }
    }

    /// The run of what is hot, from where its wires and clocks stand.
    fn start(&self, hot: &Hot, change: &Change) -> (Run, Vec<f64>) {
        let mut pieces = Vec::new();
        let mut kelvin = Vec::new();
        for (at, warm) in hot.wires.iter().enumerate() {
            let (piece, rested) = hot::piece(self.d, &self.answers.heat, (&hot.wires, at), change);
            let known = self.kelvin.get(&(warm.wire, warm.part));
            kelvin.extend(known.filter(|k| k.len() == rested.len()).unwrap_or(&rested));
            pieces.push(piece);
        }
        let run = Run {
            pieces,
            clocks: hot.fuses.iter().map(|f| f.clock.clone()).collect(),
        };
        let mut values = run.start(&kelvin);
        let (heat, n) = (run.heat_size(), hot.fuses.len());
        for (c, fuse) in hot.fuses.iter().enumerate() {
            let (slow, fast) = self.rounds.get(&fuse.part).copied().unwrap_or_default();
            (values[heat + c], values[heat + n + c]) = (slow, fast);
        }
        (run, values)
    }

    /// Keeps where wires and clocks stand at the end of a leg.
    fn put_away(&mut self, run: &Run, hot: &Hot, values: &[f64]) {
        let mut at = 0;
        for (warm, piece) in hot.wires.iter().zip(&run.pieces) {
            let shells: usize = piece.sections.iter().map(|(s, _)| s.shells()).sum();
            let key = (warm.wire, warm.part);
            self.kelvin.insert(key, values[at..at + shells].to_vec());
            at += shells;
        }
        for (fuse, rounds) in hot.fuses.iter().zip(run.rounds(values)) {
            self.rounds.insert(fuse.part, rounds);
        }
    }

    /// Counts what a step takes of the life of insulation, and the hottest wire.
    fn age(
        &mut self,
        run: &Run,
        hot: &Hot,
        bears: &[Bears],
        (s, last): (&Sample, Option<&(f64, Vec<f64>)>),
    ) {
        for (p, warm) in hot.wires.iter().enumerate() {
            let kelvin = run.hottest(s.values, p);
            let life = self.life.entry((warm.wire, warm.part)).or_default();
            if let Some((from, values)) = last {
                let before = run.hottest(values, p);
                *life += bears[p].used(before, kelvin, s.seconds - from);
            }
            self.timed.life = self.timed.life.max(*life);
            self.hottest(warm.wire, kelvin);
        }
    }

    /// Notes when a fuse may have opened at the soonest: where its fast clock comes round within a step.
    fn soonest(&mut self, run: &Run, hot: &Hot, (s, last): (&Sample, Option<&(f64, Vec<f64>)>)) {
        let start = vec![(0.0, 0.0); hot.fuses.len()];
        let before = last.map_or(start, |l| run.rounds(&l.1).collect());
        let from = last.map_or(0.0, |l| l.0);
        for ((fuse, (_, now)), (_, then)) in hot.fuses.iter().zip(run.rounds(s.values)).zip(before)
        {
            if now >= 1.0 && !self.timed.soonest.contains_key(&fuse.part) {
                let part = if now > then {
                    ((1.0 - then) / (now - then)).clamp(0.0, 1.0)
                } else {
                    1.0
                };
                let seconds = self.seconds + from + part * (s.seconds - from);
                self.timed.soonest.insert(fuse.part, seconds);
            }
        }
    }

    /// Keeps a moment for the chart.
    fn keep(&mut self, run: &Run, hot: &Hot, s: &Sample, volts: &[Option<f64>]) {
        if !self.keeps {
            return;
        }
        let n = hot.wires.len();
        let each = hot.wires.iter().enumerate();
        let wires = each.map(|(p, w)| (w.wire, run.hottest(s.values, p), s.amps[p].abs()));
        let fuses = hot.fuses.iter().zip(&s.amps[n..]);
        let across = |part: PartId| {
            let pins = &self.d.loom.part(part).pins;
            let at = |i: usize| volts[pins[i].0 as usize].unwrap_or(0.0);
            at(0) - at(1)
        };
        let loads = self.d.loom.circuits.iter().flat_map(|c| &c.loads);
        self.timed.moments.push(Moment {
            seconds: self.seconds + s.seconds,
            fuses: fuses.map(|(f, amps)| (f.part, amps.abs())).collect(),
            wires: wires.collect(),
            loads: loads.map(|l| (*l, across(*l))).collect(),
        });
    }

    fn opens(&mut self, now: &Look, fuse: PartId) -> Next {
        self.timed.opened.push((fuse, self.seconds));
        match now.change.blow(fuse) {
            Some(change) => Next::Look(Box::new(change), now.settled.energised.clone()),
            None => self.lost("more fuses open than are followed"),
        }
    }

    /// A wire is harmed now, as hot as its copper is.
    fn harms(&mut self, wire: WireId) -> Next {
        let parts = self.kelvin.iter().filter(|((w, _), _)| *w == wire);
        let kelvin = parts.flat_map(|(_, k)| k).copied().fold(0.0, f64::max);
        self.harmed(wire, kelvin)
    }

    fn harmed(&mut self, wire: WireId, kelvin: f64) -> Next {
        self.hottest(wire, kelvin);
        self.timed.harmed = Some(Harm {
            wire,
            seconds: self.seconds,
            kelvin,
        });
        Next::Done
    }

    fn hottest(&mut self, wire: WireId, kelvin: f64) {
        if self.timed.peak.is_none_or(|peak| kelvin > peak.1) {
            self.timed.peak = Some((wire, kelvin));
        }
    }

    fn lost(&mut self, why: &str) -> Next {
        self.timed.trouble = Some(why.to_owned());
        Next::Done
    }

    /// After ten minutes: whichever comes first as things go on, the opening of a fuse or the end of a wire, each wire
    /// at once as hot as it gets at rest with its present current.
    fn reckon_on(&mut self, now: &Look, hot: &Hot, (rates, amps): (&[(f64, f64)], &[f64])) -> Next {
        let mut first: Option<(f64, Then)> = None;
        let mut sooner = |seconds: f64, what: Then| {
            if seconds.is_finite() && first.is_none_or(|f| seconds < f.0) {
                first = Some((seconds, what));
            }
        };
        for (fuse, (slow, rate)) in hot.fuses.iter().zip(rates) {
            sooner((1.0 - slow).max(0.0) / rate, Then::Opens(fuse.part));
        }
        let mut running = Running::new();
        for (warm, amps) in hot.wires.iter().zip(amps) {
            let most = running.entry(warm.wire).or_default();
            *most = most.max(amps.abs());
        }
        let life = |wire: WireId| {
            let parts = self.life.iter().filter(|((w, _), _)| *w == wire);
            parts.map(|(_, life)| *life).fold(0.0, f64::max)
        };
        let mut hottest: Option<(WireId, f64)> = None;
        for (wire, kelvin) in at_rest(self.d, self.answers, &running) {
            let left = (1.0 - life(wire)).max(0.0);
            let borne = hot::bears(self.d, wire).seconds(kelvin);
            sooner(left * borne, Then::Harms(wire, kelvin));
            if hottest.is_none_or(|h| kelvin > h.1) {
                hottest = Some((wire, kelvin));
            }
        }
        let Some((seconds, what)) = first else {
            self.timed.lasts = true;
            if let Some((wire, kelvin)) = hottest {
                self.hottest(wire, kelvin);
            }
            return Next::Done;
        };
        self.seconds += seconds;
        match what {
            Then::Opens(fuse) => self.opens(now, fuse),
            Then::Harms(wire, kelvin) => self.harmed(wire, kelvin),
        }
    }
}

/// By fuse: how far its slow clock has run, and how fast it runs, per second.
fn clock_rates(run: &Run, values: &[f64], before: Option<&[f64]>, seconds: f64) -> Vec<(f64, f64)> {
    let Some(before) = before.filter(|_| seconds > 0.0) else {
        return run.rounds(values).map(|(slow, _)| (slow, 0.0)).collect();
    };
    let both = run.rounds(values).zip(run.rounds(before));
    both.map(|((now, _), (then, _))| (now, (now - then).max(0.0) / seconds))
        .collect()
}
