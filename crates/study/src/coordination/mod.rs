//! Each fuse against each wire that it protects, at every current: the fuse's band, the wire's damage curve, the
//! load with its start, and the fault currents that there are between. And each fuse against the one before it.
//!
//! The damage curve is worked out with the wire as it lies and as warm as in normal use: the time until it passes
//! its damage limit, or uses its insulation's life up. The margin is how many times later than the fuse's slow edge
//! that is, at the current at which it is least, between the lowest current at which an opening is promised and the
//! highest that can flow.

mod curve;

use crate::answers::Answers;
use crate::change::{Change, Spot};
use crate::design::{Design, Habits};
use crate::fault::{clock, look};
use crate::fuse;
use loom::{Loom, PartId, WireId};
use physics::fuse_clock::{Gate, opening_band};
use physics::warming::Clock;
use quantity::Quantity;
use rayon::prelude::*;
use stock::Stock;

/// A fuse and a wire that it protects.
#[derive(Clone, Debug)]
pub struct Coordination {
    /// The fuse.
    pub fuse: PartId,
    /// The wire.
    pub wire: WireId,
    /// The fuse's rating, A.
    pub rating: f64,
    /// Its band: current (A), soonest opening (s), latest (s) where one is promised; by rising current.
    pub band: Vec<(f64, f64, Option<f64>)>,
    /// The wire's damage curve: current (A), time (s); by rising current, from the least that ever harms it.
    pub damage: Vec<(f64, f64)>,
    /// Most steady current through the fuse, A.
    pub load: f64,
    /// The loads' start, all at once: time since (s), current (A); empty where nothing starts with a pulse.
    pub start: Vec<(f64, f64)>,
    /// Lowest and highest fault current through the fuse with this wire on the body, A; none where it carries none.
    pub faults: Option<(f64, f64)>,
    /// From the rating to the first current at which an opening is promised, A: nothing is promised between.
    pub gap: (f64, f64),
    /// Least margin: how many times longer than the slow edge the wire bears it, and at which current, A. Below 1
    /// the wire is harmed first.
    pub margin: Option<(f64, f64)>,
}

/// A fuse and the one before it.
#[derive(Clone, Copy, Debug)]
pub struct Selective {
    /// The nearer to the fault.
    pub fuse: PartId,
    /// The one before it.
    pub before: PartId,
    /// From this fault current on their bands overlap, A: either may open. None where they never do up to `highest`.
    pub overlap_from: Option<f64>,
    /// The highest fault current right behind the nearer, A.
    pub highest: f64,
}

/// All fuses against their wires, and against the fuses before them.
#[derive(Clone, Debug)]
pub struct Protection {
    /// By fuse and wire, in the loom's order.
    pub pairs: Vec<Coordination>,
    /// By fuse that has one before it.
    pub selective: Vec<Selective>,
}

/// Points of a band, per pair of gates.
const POINTS: usize = 60;

/// Works all of it out.
pub fn protection(loom: &Loom, stock: &Stock, habits: &Habits, answers: &Answers) -> Protection {
    let d = Design::answered(loom, stock, habits, answers);
    let pairs: Vec<(PartId, WireId)> = answers
        .fuses
        .iter()
        .flat_map(|f| f.protects.iter().map(|w| (f.part, *w)))
        .filter(|(_, w)| !loom.wire(*w).bounded)
        .collect();
    let pairs = pairs.into_par_iter();
    let selective = answers.fuses.iter();
    Protection {
        pairs: pairs.filter_map(|(f, w)| pair(&d, answers, f, w)).collect(),
        selective: selective
            .filter_map(|f| selective_of(&d, answers, f.part))
            .collect(),
    }
}

/// One fuse and one wire.
fn pair(d: &Design, answers: &Answers, part: PartId, wire: WireId) -> Option<Coordination> {
    let (kind, rating) = d.fuse(part)?;
    let amps = rating.amps.si();
    let gates = fuse::gates(kind);
    let promised = kind.least_promised()?;
    let faults = faults(d, answers, part, wire);
    let highest = faults
        .map_or(10.0 * amps, |f| f.1)
        .max(promised * amps * 1.5);
    let damage = curve::damage(d, answers, wire, (0.8 * amps, 1.2 * highest));
    let answer = answers.fuses.iter().find(|f| f.part == part)?;
    Some(Coordination {
        fuse: part,
        wire,
        rating: amps,
        band: band(&gates, amps, 1.2 * highest),
        load: answer.amps,
        start: start(d, answers, part),
        faults,
        gap: (amps, promised * amps),
        margin: margin(&gates, amps, (promised * amps, highest), &damage),
        damage,
    })
}

/// The band at even steps of the logarithm of current.
fn band(gates: &[Gate], amps: f64, highest: f64) -> Vec<(f64, f64, Option<f64>)> {
    let from = amps * gates.first().map_or(1.0, |g| g.multiple);
    let step = |i: usize| from * (highest / from).powf(i as f64 / POINTS as f64);
    let mut at: Vec<f64> = (0..=POINTS).map(step).collect();
    at.extend(
        gates
            .iter()
            .map(|g| g.multiple * amps)
            .filter(|a| *a <= highest),
    );
    at.sort_by(f64::total_cmp);
    at.dedup_by(|a, b| (*a / *b - 1.0).abs() < 1e-9);
    let each = at.into_iter().map(|current| {
        let (soonest, latest) = opening_band(gates, current / amps);
        (current, soonest, latest.is_finite().then_some(latest))
    });
    each.collect()
}

/// The least of damage time over the slow edge, and where.
fn margin(
    gates: &[Gate],
    amps: f64,
    (from, to): (f64, f64),
    damage: &[(f64, f64)],
) -> Option<(f64, f64)> {
    let mut least: Option<(f64, f64)> = None;
    let mut at: Vec<f64> = damage.iter().map(|p| p.0).collect();
    at.extend(gates.iter().map(|g| g.multiple * amps));
    for current in at
        .into_iter()
        .filter(|a| *a >= from * (1.0 - 1e-9) && *a <= to)
    {
        let Some(borne) = curve::at(damage, current) else {
            continue;
        };
        let part = borne / opening_band(gates, current / amps).1;
        if least.is_none_or(|l| part < l.0) {
            least = Some((part, current));
        }
    }
    least
}

/// The loads' start through a fuse: all at once, from the first tenth of a millisecond.
fn start(d: &Design, answers: &Answers, part: PartId) -> Vec<(f64, f64)> {
    let sized: Vec<&crate::Settled> = answers
        .states
        .iter()
        .take(answers.sized)
        .map(|s| &s.settled)
        .collect();
    let ask = fuse::demand(d, &sized, part);
    let longest = ask.starts.iter().map(|s| s.seconds).fold(0.0, f64::max);
    if longest <= 0.0 {
        return Vec::new();
    }
    let at = |i: usize| 1e-4 * (longest / 1e-4).powf(i as f64 / 30.0);
    let amps = |t: f64| {
        ask.starts
            .iter()
            .map(|s| s.at(t))
            .sum::<f64>()
            .min(ask.prospective)
    };
    (0..=30).map(|i| (at(i), amps(at(i)))).collect()
}

/// Lowest and highest current through a fuse with its wire on the body: at its far end through the most that a touch
/// resists, and right at its near end.
fn faults(d: &Design, answers: &Answers, part: PartId, wire: WireId) -> Option<(f64, f64)> {
    let w = d.loom.wire(wire);
    let amps = |spot: Spot, name: &str| {
        let change = Change::to_body(spot, d.limits.value(name) + d.body_return());
        let resting = answers.states.iter().filter(|s| s.settled.rests());
        let live = resting.filter(|s| s.settled.at(w.from).abs() > 0.5 * d.nominal());
        // One state with the engine running and one with it off are enough: the fuse sees the same loom.
        let mut seen: Vec<f64> = Vec::new();
        let mut supplies = Vec::new();
        for s in live {
            let running = s.state.supply.runs();
            if supplies.contains(&running) || s.state.supply == plan::SupplyState::Cranking {
                continue;
            }
            supplies.push(running);
            let l = look(d, &s.state, change, (&answers.heat, &s.settled));
            if l.settled.failure.is_none() {
                seen.push(l.settled.part_amps[part.0 as usize].abs());
            }
        }
        seen
    };
    let low = amps(Spot::Pin(w.to), "most touch")
        .into_iter()
        .reduce(f64::min)?;
    let high = amps(Spot::Pin(w.from), "least touch")
        .into_iter()
        .reduce(f64::max)?;
    Some((low, high))
}

/// A fuse against the one before it.
fn selective_of(d: &Design, answers: &Answers, part: PartId) -> Option<Selective> {
    let (kind, rating) = d.fuse(part)?;
    let (before, larger) = fuse_before(d, part)?;
    let (near, far) = (fuse::gates(kind), &larger.gates);
    let amps = rating.amps.si();
    let highest = fuse::prospective(d, part);
    // What else flows through the one before stands in for its other circuits; of the vehicle's own nobody knows.
    let answer = |p: PartId| {
        answers
            .fuses
            .iter()
            .find(|f| f.part == p)
            .map_or(0.0, |f| f.amps)
    };
    let others = (answer(before) - answer(part)).max(0.0);
    let from = kind.least_promised()? * amps;
    let step = |i: usize| from * (highest / from).powf(i as f64 / 200.0);
    let overlaps = |current: &f64| {
        let must = opening_band(&near, current / amps).1;
        // In the heat of its place it feels more than flows.
        opening_band(far, (current + others) / larger.fast_amps).0 <= must
    };
    Some(Selective {
        fuse: part,
        before,
        overlap_from: (0..=200)
            .map(step)
            .filter(|a| *a <= highest * 1.001)
            .find(overlaps),
        highest,
    })
}

/// The next fuse towards the source, the vehicle's own before a feed among them, with its clock.
fn fuse_before(d: &Design, part: PartId) -> Option<(PartId, Clock)> {
    let mut pin = d.loom.part(part).pins[0];
    for _ in 0..=d.loom.pins.len() {
        pin = d.loom.before(pin)?;
        let id = d.loom.pin(pin).part;
        if let Some(clock) = clock(d, id) {
            return Some((id, clock));
        }
    }
    None
}
