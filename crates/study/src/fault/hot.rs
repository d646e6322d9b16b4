//! What carries more than it was sized for, as heat in time sees it: wires as the sections that they lie in,
//! fuses as clocks.

use super::look::Look;
use crate::answers::Answers;
use crate::change::{Change, Poor};
use crate::design::Design;
use crate::fuse;
use crate::heat::{self, Heat};
use crate::network::Piece;
use loom::{PartId, PartKind, StretchId, WireId};
use physics::ageing::{Bears, Tested};
use physics::bundle::Sleeve;
use physics::conductor::resistance_at;
use physics::warming::{self, Beside, Clock, Cover, Section, Warmed};
use quantity::{ElectricCurrent, Quantity, in_celsius};

/// A wire that carries this many times what it was sized for warms beyond what it was sized for. Our own, no source.
const BEYOND: f64 = 1.02;
/// And at least this much more, A: wires that carry next to nothing double it with nobody noticing. Our own, no source.
const LEAST_BEYOND: f64 = 0.5;

/// Which part of a wire.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub(crate) enum Part {
    /// All of it.
    Whole,
    /// From its near end to its middle.
    Near,
    /// From its middle to its far end.
    Far,
}

/// A wire, or half of one, that warms.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub(crate) struct Warm {
    pub wire: WireId,
    pub part: Part,
    /// Its element in the model.
    pub element: usize,
}

impl Warm {
    /// All of a wire, whatever its element.
    pub(crate) fn whole(wire: WireId) -> Self {
        Self {
            wire,
            part: Part::Whole,
            element: 0,
        }
    }
}

/// A fuse whose clock runs: one of the loom, or the vehicle's own before a feed or a signal.
#[derive(Clone, Debug)]
pub(super) struct Running {
    pub part: PartId,
    pub element: usize,
    pub clock: Clock,
}

/// What is hot with a fault.
pub(super) struct Hot {
    pub wires: Vec<Warm>,
    pub fuses: Vec<Running>,
}

impl Hot {
    pub(super) fn is_empty(&self) -> bool {
        self.wires.is_empty() && self.fuses.is_empty()
    }
}

/// What carries more than it was sized for, and the fuses that feel more than their rating.
pub(super) fn find(d: &Design, answers: &Answers, look: &Look) -> Hot {
    let mut hot = Hot {
        wires: Vec::new(),
        fuses: Vec::new(),
    };
    let Some(model) = &look.settled.model else {
        return hot;
    };
    let mut most: Option<(f64, Warm)> = None;
    let mut halves: Option<WireId> = None;
    for (element, (e, amps)) in model.elements.iter().zip(&model.amps).enumerate() {
        let amps = amps.abs();
        match e.piece {
            Piece::Wire(wire) => {
                let part = part_of(&look.change, wire, &mut halves);
                let normal = answers.wires[wire.0 as usize].amps;
                let warm = Warm {
                    wire,
                    part,
                    element,
                };
                if amps > normal * BEYOND && amps > normal + LEAST_BEYOND {
                    hot.wires.push(warm);
                }
                let beyond = amps / normal.max(LEAST_BEYOND);
                if most.is_none_or(|m| beyond > m.0) {
                    most = Some((beyond, warm));
                }
            }
            Piece::Fuse(part) | Piece::Feed(part) => {
                let clock = clock(d, part).filter(|c| amps > c.fast_amps);
                hot.fuses.extend(clock.map(|clock| Running {
                    part,
                    element,
                    clock,
                }));
            }
            _ => {}
        }
    }
    // A fuse that feels more than its rating is followed with the wire that is loaded most.
    if hot.wires.is_empty() && !hot.fuses.is_empty() {
        hot.wires.extend(most.map(|m| m.1));
    }
    hot
}

/// Which part of its wire the next element of it is.
fn part_of(change: &Change, wire: WireId, halves: &mut Option<WireId>) -> Part {
    if !change.splits(wire) {
        return Part::Whole;
    }
    match *halves == Some(wire) {
        true => Part::Far,
        false => {
            *halves = Some(wire);
            Part::Near
        }
    }
}

/// The clock of a fuse, or of the one that the vehicle has before a feed or a signal.
pub(crate) fn clock(d: &Design, part: PartId) -> Option<Clock> {
    let p = d.loom.part(part);
    let vehicles = |amps: f64| Some((fuse::vehicles_class(d.stock, amps)?, amps));
    let usual = |said: Option<ElectricCurrent>| {
        said.map_or_else(|| d.limits.value("vehicle's own fuse"), Quantity::si)
    };
    let (kind, amps) = match &p.kind {
        PartKind::Fuse(_) => {
            let (kind, rating) = d.fuse(part)?;
            (kind, rating.amps.si())
        }
        PartKind::Signal(s) => vehicles(usual(s.fused))?,
        PartKind::Feed(f) if f.kind == plan::FeedKind::IgnitionTap => vehicles(usual(f.fused))?,
        PartKind::Feed(f) => vehicles(f.fused?.si())?,
        _ => return None,
    };
    let celsius = in_celsius(d.loom.place(p.place).heat);
    Some(Clock {
        gates: fuse::gates(kind),
        // In its place's heat it may open sooner. On a cold day it opens later than its gates say, at wires that are as
        // much cooler: neither is counted.
        slow_amps: amps,
        fast_amps: amps * kind.ambient(celsius).min(1.0),
    })
}

/// A wire as heat in time sees it.
pub(super) fn warmed(d: &Design, wire: WireId) -> Warmed {
    let c = d.conductor(wire);
    Warmed {
        body: heat::body(d, c),
        copper_m2: c.area.si(),
        insulation_j_m3k: d.insulation(c).heat_j_m3k,
        r20_per_m: c.ohm_per_m_20,
    }
}

/// How long the insulation of a wire bears what temperature.
pub(crate) fn bears(d: &Design, wire: WireId) -> Bears {
    let i = d.insulation(d.conductor(wire));
    let hours = |name: &str| 3600.0 * d.limits.value(name);
    let tested = Tested {
        at_class_s: hours("borne at class"),
        above: [
            (
                d.limits.value("ageing above class"),
                hours("borne ageing above class"),
            ),
            (
                d.limits.value("overload above class"),
                hours("borne overload above class"),
            ),
        ],
        short_s: d.limits.value("borne short circuit"),
    };
    Bears::new(i.limit.si(), i.damage.si(), &tested)
}

/// A warm wire as a piece of a run, and the temperatures that it has in normal use.
pub(crate) fn piece(
    d: &Design,
    heat: &Heat,
    (hot, at): (&[Warm], usize),
    change: &Change,
) -> (warming::Piece, Vec<f64>) {
    let warm = hot[at];
    let w = d.loom.wire(warm.wire);
    let own = warmed(d, warm.wire);
    let ends = [w.places[0], w.places[w.places.len() - 1]];
    let around = ends.iter().map(|p| d.heat_at(*p)).fold(0.0, f64::max);
    let mut laid: Vec<(Section, f64)> = Vec::new();
    let within: f64 = w
        .stretches
        .iter()
        .map(|s| d.loom.stretch(*s).length.si())
        .sum();
    let cut = w.cut.si();
    // A length set by hand may be shorter than the way: then all of it lies in the stretches.
    let (scale, free) = match cut > within {
        true => (1.0, cut - within),
        false => (cut / within, 0.0),
    };
    let open = || warming::alone(&own, around);
    laid.push((open(), 0.5 * free));
    for stretch in &w.stretches {
        let length = scale * d.loom.stretch(*stretch).length.si();
        laid.push((in_stretch(d, heat, (hot, at), *stretch), length));
    }
    laid.push((open(), 0.5 * free));
    let laid = match warm.part {
        Part::Whole => laid,
        Part::Near => cut_at(laid, 0.0, 0.5 * cut),
        Part::Far => cut_at(laid, 0.5 * cut, cut),
    };
    let sections = merged(laid);
    let made: Vec<f64> = hot.iter().map(|w| usual_watts(d, heat, w.wire)).collect();
    let felt = heat.felt[warm.wire.0 as usize];
    let kelvin = sections
        .iter()
        .flat_map(|(s, _)| warming::rest(s, felt, own.r20_per_m, &made))
        .collect();
    let share = if warm.part == Part::Whole { 1.0 } else { 0.5 };
    let piece = warming::Piece {
        sections,
        r20_per_m: own.r20_per_m,
        joints_ohms: share * (d.joint_ohms(warm.wire) + change.more_ohms(Poor::Wire(warm.wire))),
        damage_k: bears(d, warm.wire).damage_k(),
    };
    (piece, kelvin)
}

/// What a wire makes in normal use in its worst state, W/m.
fn usual_watts(d: &Design, heat: &Heat, wire: WireId) -> f64 {
    let at = wire.0 as usize;
    let (felt, kelvin) = (heat.felt[at], heat.hottest[at]);
    felt * felt * resistance_at(d.conductor(wire).ohm_per_m_20, kelvin)
}

/// A wire in the bundle of a stretch, with the others as warm as in normal use, the hot ones running.
fn in_stretch(d: &Design, heat: &Heat, (hot, at): (&[Warm], usize), stretch: StretchId) -> Section {
    let own = hot[at].wire;
    let s = d.loom.stretch(stretch);
    let beside: Vec<Beside> = s
        .wires
        .iter()
        .filter(|w| **w != own)
        .map(|w| Beside {
            wire: warmed(d, *w),
            watts_per_m: usual_watts(d, heat, *w),
            runs: hot.iter().position(|h| h.wire == *w),
        })
        .collect();
    let sleeve: Option<Sleeve> = crate::heat::sleeve(d, stretch);
    let cover = sleeve.map(|sleeve| Cover {
        sleeve,
        j_m3k: d.limits.value("sleeve heat"),
    });
    match (beside.is_empty(), cover) {
        (true, None) => warming::alone(&warmed(d, own), s.heat.si()),
        _ => warming::laid(&warmed(d, own), &beside, cover, s.heat.si()),
    }
}

/// The part of a row of sections between two distances from its start.
fn cut_at(laid: Vec<(Section, f64)>, from: f64, to: f64) -> Vec<(Section, f64)> {
    let mut start = 0.0;
    let mut kept = Vec::new();
    for (section, length) in laid {
        let end = start + length;
        let inside = (end.min(to) - f64::max(start, from)).max(0.0);
        kept.push((section, inside));
        start = end;
    }
    kept
}

/// Sections alike in one, and none without length.
fn merged(laid: Vec<(Section, f64)>) -> Vec<(Section, f64)> {
    let mut kept: Vec<(Section, f64)> = Vec::new();
    for (section, length) in laid.into_iter().filter(|(_, l)| *l > 1e-4) {
        match kept.iter_mut().find(|(s, _)| *s == section) {
            Some((_, sum)) => *sum += length,
            None => kept.push((section, length)),
        }
    }
    kept
}
