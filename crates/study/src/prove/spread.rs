//! By how much each element of a sound installation may be otherwise, and what that is as current beyond its law: copper,
//! joints, fuses, coils, loads, battery, alternator. What several share (weather, the battery's charge) is one thing.

use crate::change::{Change, Poor};
use crate::design::Design;
use crate::network::{Element, Piece};
use loom::{PartId, PartKind, WireId};
use physics::network::Law;
use plan::{LampKind, LoadKind};

/// Something that is not known exactly.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Param {
    /// How warm all wires are.
    Heat,
    /// The battery's voltage at rest.
    Rested,
    /// What the alternator is set to.
    Regulated,
    /// How large what is amiss is, within the steps that are tried.
    Size,
    /// Of a piece itself.
    Own(Piece),
}

/// Steps between sizes that are tried are some 2.2 times: half of one either way, as a part. Our own.
pub(super) const STEP: f64 = 0.4;
/// The same of what a load draws that draws what it should not.
const DRAW_STEP: f64 = 0.25;

/// Growth of copper's resistance by kelvin, 1/K at 20 °C (IEC 60028, read).
const ALPHA: f64 = 0.00393;

/// What one standard deviation of each thing that is not known does to an element.
pub(super) struct Spread<'a> {
    pub d: &'a Design<'a>,
    /// What is otherwise than planned: what a fault adds is no spread.
    pub changes: &'a [Change],
}

impl Spread<'_> {
    fn part(&self, name: &str) -> f64 {
        self.d.limits.value(name) / 100.0
    }

    fn volts(&self, name: &str) -> f64 {
        self.d.limits.value(name) * self.d.nominal() / 12.0
    }

    fn more(&self, poor: Poor) -> f64 {
        self.changes.iter().map(|c| c.more_ohms(poor)).sum()
    }

    /// Relative standard deviation of an element's resistance, or of what it draws, by what it hangs on.
    pub fn of(&self, e: &Element) -> Vec<(Param, f64)> {
        let own = |part: f64| vec![(Param::Own(e.piece), part)];
        // Of a resistance that is partly what is amiss: the sound part's own spread, and the size of the rest.
        let mixed = |poor: Poor, part: f64| match e.law {
            Law::Resistor { ohms } if ohms > 0.0 => {
                let more = self.more(poor).min(ohms) / ohms;
                let mut found = own(part * (1.0 - more));
                if more > 0.0 {
                    found.push((Param::Size, STEP * more));
                }
                found
            }
            _ => Vec::new(),
        };
        let joint = self.part("joint spread");
        match e.piece {
            Piece::Wire(w) => self.wire(w, e),
            Piece::Mate(i) => mixed(Poor::Mate(i), joint),
            Piece::Body(p) => mixed(Poor::Earth(p), joint),
            Piece::Contact(p) => mixed(Poor::Contact(p), joint),
            Piece::Fuse(p) => mixed(Poor::Fuse(p), self.part("fuse spread")),
            Piece::Feed(_) => own(joint),
            Piece::Coil(_) => own(self.part("coil spread")),
            Piece::Load(p) => vec![self.load(p)],
            Piece::Vehicle | Piece::OwnLamp(_) | Piece::Sense(_) | Piece::Float => {
                own(self.part("own draw spread"))
            }
            Piece::Battery => own(self.part("battery ohms spread")),
            Piece::Alternator | Piece::Spare(_) | Piece::Chafe => Vec::new(),
        }
    }

    fn wire(&self, wire: WireId, e: &Element) -> Vec<(Param, f64)> {
        let d = self.d;
        let w = d.loom.wire(wire);
        let joints: Vec<f64> = w
            .joints
            .iter()
            .flatten()
            .map(|j| d.stock.joint(j).map_or(0.0, |j| j.ohms))
            .collect();
        let more = self.more(Poor::Wire(wire));
        // Of a wire that is touched halfway along, each half is as much of everything.
        let halves = if self.changes.iter().any(|c| c.splits(wire)) {
            2.0
        } else {
            1.0
        };
        let Law::Resistor { ohms } = e.law else {
            return Vec::new();
        };
        let whole = ohms * halves;
        let copper = (whole - more - joints.iter().sum::<f64>()).max(0.0);
        let straight = self.part("length spread").hypot(self.part("copper spread"));
        let each = joints
            .iter()
            .map(|r| (r * self.part("joint spread")).powi(2));
        let own = ((copper * straight).powi(2) + each.sum::<f64>()).sqrt() / whole;
        let warm = copper * ALPHA * d.limits.value("wire heat spread") / whole;
        let mut found = vec![(Param::Own(e.piece), own), (Param::Heat, warm)];
        if more > 0.0 {
            found.push((Param::Size, STEP * more.min(whole) / whole));
        }
        found
    }

    fn load(&self, load: PartId) -> (Param, f64) {
        let own = |part| (Param::Own(Piece::Load(load)), part);
        let PartKind::Load(l) = &self.d.loom.part(load).kind else {
            return own(0.0);
        };
        let otherwise = |c: &Change| c.draws.is_some_and(|s| s.0 == load);
        if self.changes.iter().any(otherwise) {
            return (Param::Size, DRAW_STEP);
        }
        if self
            .changes
            .iter()
            .any(|c| c.shorted.is_some_and(|s| s.0 == load))
        {
            return own(0.0);
        }
        own(self.part(match l.kind {
            LoadKind::Lamp(LampKind::Tungsten) => "filament spread",
            LoadKind::Lamp(_) => "LED spread",
            LoadKind::Motor => "motor spread",
            LoadKind::Heater => "heater spread",
            LoadKind::Electronics | LoadKind::Socket => "electronics spread",
        }))
    }

    /// What each thing that an element hangs on is, one standard deviation of it, as amperes beyond its law.
    pub fn beyond(&self, e: &Element, amps: f64, siemens: f64) -> Vec<(Param, f64)> {
        // A load draws more; a resistance passes less.
        let draws = matches!(
            e.piece,
            Piece::Load(_) | Piece::Vehicle | Piece::OwnLamp(_) | Piece::Sense(_) | Piece::Float
        );
        let sign = if draws { 1.0 } else { -1.0 };
        let each = self.of(e).into_iter();
        let mut found: Vec<_> = each
            .map(|(param, part)| (param, sign * part * amps))
            .collect();
        match e.piece {
            Piece::Battery => {
                found.push((Param::Rested, -siemens * self.volts("rested volts spread")))
            }
            Piece::Alternator => found.push((
                Param::Regulated,
                -siemens * self.volts("regulated volts spread"),
            )),
            _ => {}
        }
        found
    }

    /// An element as it is when each thing that it hangs on is so many standard deviations otherwise.
    pub fn drawn(&self, e: &Element, by: &impl Fn(Param) -> f64) -> Law {
        let each = self.of(e).into_iter();
        // Never nothing or less: a resistance that varies by half of itself is still one.
        let more = each
            .map(|(param, part)| 1.0 + part * by(param))
            .fold(1.0, |a, b| a * b)
            .max(0.05);
        match e.law {
            Law::Resistor { ohms } => Law::Resistor {
                ohms: match e.piece {
                    Piece::Load(_) | Piece::Float => ohms / more,
                    _ => ohms * more,
                },
            },
            Law::Source { volts, ohms } => Law::Source {
                volts: volts + by(Param::Rested) * self.volts("rested volts spread"),
                ohms: ohms * more,
            },
            Law::Regulated {
                volts,
                ohms,
                limit_amps,
            } => {
                let (param, name) = match e.piece {
                    Piece::Alternator => (Param::Regulated, "regulated volts spread"),
                    _ => (Param::Rested, "rested volts spread"),
                };
                Law::Regulated {
                    volts: volts + by(param) * self.volts(name),
                    ohms,
                    limit_amps,
                }
            }
            Law::Tungsten {
                rated_volts,
                rated_amps,
            } => Law::Tungsten {
                rated_volts,
                rated_amps: rated_amps * more,
            },
            Law::ConstantPower {
                watts,
                lowest_volts,
                highest_volts,
            } => Law::ConstantPower {
                watts: watts * more,
                lowest_volts,
                highest_volts,
            },
            Law::Motor {
                rated_volts,
                rated_amps,
                armature_ohms,
            } => Law::Motor {
                rated_volts,
                rated_amps: rated_amps * more,
                armature_ohms: armature_ohms / more,
            },
            other => other,
        }
    }
}
