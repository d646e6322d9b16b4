//! Choosing fuses: from the steady load and the heat around them, from the loads' start, from what
//! the battery can push.

use crate::design::{Design, FuseChoice};
use crate::load::{self, Frame};
use crate::settle::Settled;
use loom::{FusePart, PartId, PartKind, WireId};
use physics::battery;
use physics::fuse_clock::{self, Gate};
use plan::FeedKind;
use quantity::{Quantity, in_celsius};
use stock::{FuseKind, Stock};

/// Classes in the order in which they are tried where the plan names none.
const USUAL: [&str; 5] = [
    "miniature blade",
    "medium blade",
    "high-current blade",
    "bolt-in strip M5",
    "bolt-in strip M8",
];

/// What a fuse position asks of a fuse.
#[derive(Clone, Debug)]
pub(crate) struct Demand {
    /// Most steady current in any state, A.
    pub amps: f64,
    /// Loads behind it that start with a pulse: each start's amperes and seconds.
    pub starts: Vec<load::Start>,
    /// Heat around it, °C.
    pub celsius: f64,
    /// What the battery can push through it at a dead short behind it, A.
    pub prospective: f64,
}

/// The gates of a class as the fuse's clock takes them.
pub(crate) fn gates(kind: &FuseKind) -> Vec<Gate> {
    kind.gates
        .iter()
        .map(|g| Gate {
            multiple: g.multiple,
            min_s: g.min_s,
            max_s: g.max_s,
        })
        .collect()
}

/// The class that a fuse of the vehicle's own counts as, of which only the rating is known: of the usual classes that have
/// so large a fuse, the one that lets most through at a short.
pub(crate) fn vehicles_class(stock: &Stock, amps: f64) -> Option<&FuseKind> {
    let usual = USUAL.iter().filter_map(|name| stock.fuse_kind(name));
    let reaches = |k: &&FuseKind| k.ratings.last().is_some_and(|r| r.amps.si() >= amps);
    let lets = |k: &FuseKind| {
        let mut promised = k.gates.iter().rev();
        let last = promised.find_map(|g| Some(g.multiple.powi(2) * g.max_s?));
        last.unwrap_or(f64::INFINITY)
    };
    let largest = usual.clone().max_by_key(|k| {
        let last = k.ratings.last().map_or(0.0, |r| r.amps.si());
        last.round() as i64
    });
    usual
        .filter(reaches)
        .max_by(|a, b| lets(a).total_cmp(&lets(b)))
        .or(largest)
}

/// What a fuse of this class may carry for ever at this heat, as a part of its rating.
pub(crate) fn continuous(kind: &FuseKind, celsius: f64) -> f64 {
    kind.continuous_factor * kind.ambient(celsius)
}

/// What the position asks for.
pub(crate) fn demand(
    d: &Design,
    settled: &[impl std::borrow::Borrow<Settled>],
    fuse: PartId,
) -> Demand {
    let at = fuse.0 as usize;
    let part = d.loom.part(fuse);
    let mut starts = Vec::new();
    for (id, p) in d.loom.each_part() {
        let PartKind::Load(l) = &p.kind else { continue };
        let behind = d
            .paths
            .out(id)
            .iter()
            .any(|w| d.loom.wire(*w).fuse == Some(fuse));
        if behind {
            let frame = Frame {
                load: l,
                limits: &d.limits,
                nominal: d.nominal(),
            };
            starts.push((load::model(l.kind).start)(&frame));
        }
    }
    Demand {
        amps: settled
            .iter()
            .map(|s| s.borrow().part_amps[at].abs())
            .fold(0.0, f64::max),
        starts,
        celsius: in_celsius(d.loom.place(part.place).heat),
        prospective: prospective(d, fuse),
    }
}

/// What stands between the source and a fuse.
pub(crate) struct Ahead {
    /// The battery's voltage, full and warm.
    pub volts: f64,
    /// Resistance of everything but the wires' copper, Ω.
    pub ohms: f64,
    /// The wires.
    pub wires: Vec<WireId>,
}

/// What stands before a fuse: the battery, wires, joints, bus bars and other fuses.
pub(crate) fn ahead(d: &Design, fuse: PartId) -> Ahead {
    let s = &d.loom.supply;
    let volts = battery::open_circuit_volts(
        crate::network::chemistry(s.battery.chemistry),
        1.0,
        d.nominal(),
    );
    let warm = 298.15;
    let mut found = Ahead {
        volts,
        ohms: crate::supply_side::battery_ohms(d, 1.0, warm)
            .max(volts / by_cranking(d).map_or(f64::INFINITY, |b| b.amps)),
        wires: Vec::new(),
    };
    let mut pin = d.loom.part(fuse).pins[0];
    // Walk back to the source.
    for _ in 0..d.loom.parts.len() {
        if let Some((i, m)) = d.loom.mates.iter().enumerate().find(|(_, m)| m.far == pin) {
            found.ohms += d.fixed.mate_ohms[i];
            pin = m.live;
        } else if let Some((id, w)) = d.loom.each_wire().find(|(_, w)| w.to == pin) {
            found.ohms += d.joint_ohms(id);
            found.wires.push(id);
            pin = w.from;
        }
        let part = d.loom.part_of(pin);
        match &part.kind {
            PartKind::Fuse(_) if part.pins[1] == pin => {
                let before = d.loom.pin(pin).part;
                found.ohms += d.fuse(before).map_or(0.0, |(_, r)| r.cold_ohms);
                pin = part.pins[0];
            }
            PartKind::Feed(f) => {
                found.ohms += f.resistance.si();
                break;
            }
            PartKind::Battery { .. } => break,
            _ => {}
        }
    }
    found
}

/// What the battery can push into a dead short right behind this fuse: full and warm, through the
/// wires and joints before it.
pub(crate) fn prospective(d: &Design, fuse: PartId) -> f64 {
    let ahead = ahead(d, fuse);
    let each = ahead.wires.iter();
    let copper = each.map(|w| d.conductor(*w).ohm_per_m_20 * d.loom.wire(*w).cut.si());
    battery::short_circuit_amps(ahead.volts, ahead.ohms + copper.sum::<f64>())
}

/// The published short-circuit current for a battery of this cranking rating.
fn by_cranking<'a>(d: &'a Design) -> Option<&'a crate::limits::Breaking> {
    d.limits
        .breaking
        .iter()
        .find(|b| d.supply.cranking <= b.cranking_most)
}

/// On whose word the prospective current is what it is.
pub(crate) fn breaking_source(d: &Design) -> String {
    let table = by_cranking(d).map_or("", |b| b.cite.as_str());
    format!("{table}, less what the wiring before the fuse holds back")
}

/// Whether a rating of a class does what is asked.
pub(crate) fn suits(kind: &FuseKind, rating: f64, ask: &Demand) -> bool {
    ask.amps <= rating * continuous(kind, ask.celsius) * (1.0 + 1e-9)
        && stands_start(kind, rating, ask)
}

/// Steps that a start is cut into for the fuse's clock: a finer cut moves the answer by under 2 %.
const STEPS: usize = 40;

/// Whether the fuse stands every load's start, all at once: its clock, run on its fast edge, must
/// not come round before the pulses are over.
pub(crate) fn stands_start(kind: &FuseKind, rating: f64, ask: &Demand) -> bool {
    let longest = ask.starts.iter().map(|s| s.seconds).fold(0.0, f64::max);
    if longest <= 0.0 {
        return true;
    }
    // Steps grow with time, since short pulses lie within the first of the long ones.
    let edge = |i: usize| longest * (i as f64 / STEPS as f64).powi(3);
    let history: Vec<(f64, f64)> = (0..STEPS)
        .map(|i| {
            let (from, to) = (edge(i), edge(i + 1));
            let amps: f64 = ask.starts.iter().map(|s| s.at(from)).sum();
            (amps.min(ask.prospective) / rating, to - from)
        })
        .collect();
    let (may, _) = fuse_clock::clock(&gates(kind), &history);
    may < 1.0
}

/// Chooses the fuse of every position anew. Gives whether anything changed.
pub(crate) fn choose(d: &mut Design, settled: &[Settled]) -> bool {
    let mut chosen = d.choice.fuses.clone();
    for (id, part) in d.loom.each_part() {
        if let PartKind::Fuse(f) = &part.kind {
            let ask = demand(d, settled, id);
            let found = pick(d, (id, f), &ask);
            // Grow only: a rating that is needed in one round of sizing is not given up in the next.
            let old = chosen[id.0 as usize];
            chosen[id.0 as usize] = match (old, found) {
                (Some(o), Some(n)) if same_or_smaller(d, n, o) => Some(o),
                (old, None) => old,
                (_, new) => new,
            };
        }
    }
    let changed = chosen != d.choice.fuses;
    d.choice.fuses = chosen;
    changed
}

/// Chooses the fuse of every position as it is asked for now, whatever was chosen before.
pub(crate) fn choose_anew(d: &mut Design, settled: &[Settled]) {
    let mut chosen = d.choice.fuses.clone();
    for (id, part) in d.loom.each_part() {
        if let PartKind::Fuse(f) = &part.kind {
            let ask = demand(d, settled, id);
            let found = pick(d, (id, f), &ask);
            chosen[id.0 as usize] = found.or(chosen[id.0 as usize]);
        }
    }
    d.choice.fuses = chosen;
}

fn same_or_smaller(d: &Design, new: FuseChoice, old: FuseChoice) -> bool {
    let amps = |c: FuseChoice| d.stock.fuses[c.kind].ratings[c.rating].amps.si();
    amps(new) <= amps(old) && new.kind <= old.kind
}

/// Whether a fuse sits in a way, of a box or of the vehicle's: bolt-in strips don't.
fn in_way(d: &Design, fuse: PartId, f: &FusePart) -> bool {
    let before = d.loom.before(d.loom.part(fuse).pins[0]);
    let tapped = before.is_some_and(|pin| match &d.loom.part_of(pin).kind {
        PartKind::Feed(f) => matches!(f.kind, FeedKind::SpareWay | FeedKind::IgnitionTap),
        _ => false,
    });
    f.way.is_some() || tapped
}

/// The fuse for a position: the smallest that suits, of the first class that has one and takes the wires at it.
fn pick(d: &Design, (id, f): (PartId, &FusePart), ask: &Demand) -> Option<FuseChoice> {
    let named = f.kind.as_ref().map(|k| k.value.as_str());
    let classes: Vec<&str> = named.map_or_else(|| USUAL.to_vec(), |n| vec![n]);
    let able = |k: &FuseKind| k.breaking.si() >= ask.prospective;
    let pins = &d.loom.part(id).pins;
    let at_it = d.loom.each_wire();
    let at_it = at_it.filter(|(_, w)| pins.contains(&w.from) || pins.contains(&w.to));
    let thickest = at_it
        .map(|(w, _)| d.conductor(w).area.si())
        .fold(0.0, f64::max);
    let takes_wires = |k: &FuseKind| f.way.is_some() || k.max_wire_area.si() >= thickest * 0.999;
    let index = |name: &str| d.stock.fuses.iter().position(|k| k.name == name);
    let kinds: Vec<usize> = classes.iter().filter_map(|n| index(n)).collect();
    let in_way = in_way(d, id, f);
    let fits = |k: &FuseKind, amps: f64| match &f.rating {
        Some(set) => (set.value.si() - amps).abs() < 1e-6,
        None => suits(k, amps, ask),
    };
    let mut best: Option<FuseChoice> = None;
    for &kind in &kinds {
        let k = &d.stock.fuses[kind];
        if in_way && k.stud().is_some() && named.is_none() {
            continue;
        }
        let Some(rating) = k.ratings.iter().position(|r| fits(k, r.amps.si())) else {
            continue;
        };
        let found = FuseChoice { kind, rating };
        if able(k) && takes_wires(k) {
            return Some(found);
        }
        // None may be able to break what the battery pushes: then the ablest, and a finding says so.
        let rank = |k: &FuseKind| (able(k), takes_wires(k), k.breaking.si());
        if best.is_none_or(|b| rank(k) > rank(&d.stock.fuses[b.kind])) {
            best = Some(found);
        }
    }
    if best.is_some() {
        return best;
    }
    // Nothing suits: the largest that the position takes, so that the rest can be judged; that it is
    // too small is a finding.
    let takes = |k: &&usize| named.is_some() || !in_way || d.stock.fuses[**k].stud().is_none();
    let kind = *kinds.iter().rfind(takes)?;
    let last = d.stock.fuses[kind].ratings.len().checked_sub(1)?;
    Some(FuseChoice { kind, rating: last })
}
