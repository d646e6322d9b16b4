//! What happens when a switch's wire chafes through to the body: with the switch in the coil's supply its
//! fuse opens; with the switch in the coil's earth the load comes on. Looked at with the switch off and on,
//! right after the touch; how long a fuse takes is another question.

use crate::amiss::{Amiss, Beside};
use crate::change::{Change, Spot};
use crate::design::Design;
use crate::heat::Heat;
use crate::on::unasked;
use crate::settle::{self, Settled, View};
use crate::state::{Position, State};
use loom::{Loom, PartId, PartKind, PinId, WireId};
use plan::SupplyState;
use std::collections::BTreeSet;
use std::sync::Arc;

/// What a touch does.
#[derive(Clone, Debug, PartialEq)]
pub enum Touch {
    /// A fuse of the loom gets this many times its rating.
    Opens {
        /// The fuse.
        fuse: PartId,
        /// Current over rating.
        times: f64,
    },
    /// The vehicle's own fuse before the feed or signal gets this many amperes; its rating if the plan
    /// says it.
    OpensVehicles {
        /// Current, A.
        amps: f64,
        /// Rating, A.
        rating: Option<f64>,
    },
    /// These come on though nothing asks for them.
    TurnsOn(Vec<PartId>),
    /// Nothing that anybody notices.
    Nothing,
    /// What it does could not be worked out.
    Unknown(Amiss),
}

/// A switch's wire and what its touching the body does.
#[derive(Clone, Debug, PartialEq)]
pub struct Chafe {
    /// The wire.
    pub wire: WireId,
    /// With its switch off.
    pub off: Touch,
    /// With its switch on.
    pub on: Touch,
}

/// Every wire of every switch.
pub(crate) fn all(d: &Design, heat: &Arc<Heat>) -> Vec<Chafe> {
    let mut found = Vec::new();
    for (i, c) in d.loom.circuits.iter().enumerate() {
        let Some(switch) = c.switch else { continue };
        for (wire, pin) in wires_of(d.loom, switch) {
            let touch = |position| touched(d, heat, (i, position), pin);
            found.push(Chafe {
                wire,
                off: touch(Position::Off),
                on: touch(Position::On),
            });
        }
    }
    found
}

/// The wires that lead to a switch, through connectors and splices, each with the pin at its end that is
/// nearer to the switch.
fn wires_of(loom: &Loom, switch: PartId) -> Vec<(WireId, PinId)> {
    let mut found: Vec<(WireId, PinId)> = Vec::new();
    let mut seen: BTreeSet<PinId> = loom.part(switch).pins.iter().copied().collect();
    let mut queue: Vec<PinId> = loom.part(switch).pins.clone();
    while let Some(pin) = queue.pop() {
        let mut go = |to: PinId| {
            let through = matches!(
                loom.part_of(to).kind,
                PartKind::Connector { .. } | PartKind::Splice
            );
            if through && seen.insert(to) {
                queue.push(to);
            }
        };
        for m in &loom.mates {
            match (m.live == pin, m.far == pin) {
                (true, _) => go(m.far),
                (_, true) => go(m.live),
                _ => {}
            }
        }
        for (id, w) in loom.each_wire() {
            let other = match (w.from == pin, w.to == pin) {
                (true, _) => w.to,
                (_, true) => w.from,
                _ => continue,
            };
            if !found.iter().any(|(f, _)| *f == id) {
                found.push((id, pin));
                go(other);
            }
        }
    }
    found.sort();
    found
}

/// Driving, with this circuit's switch turned and everything else at rest.
fn touched(
    d: &Design,
    heat: &Arc<Heat>,
    (circuit, position): (usize, Position),
    pin: PinId,
) -> Touch {
    let mut positions = crate::combine::at_rest(d.loom);
    positions[circuit] = position;
    let wanted = match position {
        Position::Off => Vec::new(),
        _ => d.loom.circuits[circuit].only.clone(),
    };
    let signals: Vec<PartId> = crate::combine::each_signal(d.loom).collect();
    let there = crate::combine::possible(d.loom, SupplyState::Driving, &signals, &wanted);
    let state = State::new(d.loom, SupplyState::Driving, positions, there);
    let view = View {
        change: Change::to_body(Spot::Pin(pin), d.limits.value("touch")),
        ..View::default()
    };
    let s = settle::glance_as(d, &state, view, heat, None);
    match Amiss::of(&state, Beside::Chafed(pin), &s) {
        Some(amiss) => Touch::Unknown(amiss),
        None => judge(d, &state, &s),
    }
}

fn judge(d: &Design, state: &State, s: &Settled) -> Touch {
    let opens_at = d.limits.value("fuse opens");
    let opening = d.loom.each_part().filter_map(|(id, p)| {
        let (_, rating) = matches!(p.kind, PartKind::Fuse(_)).then(|| d.fuse(id))??;
        let amps = s.part_amps[id.0 as usize].abs();
        let times = amps / quantity::Quantity::si(rating.amps);
        (times >= opens_at).then_some((id, times))
    });
    // Of several in a row the smallest gets most for its rating.
    if let Some((fuse, times)) = opening.max_by(|a, b| a.1.total_cmp(&b.1)) {
        return Touch::Opens { fuse, times };
    }
    let mut sources = d.loom.each_part().filter_map(|(id, p)| {
        let rating = match &p.kind {
            PartKind::Signal(s) => s.fused,
            PartKind::Feed(f) if f.kind != plan::FeedKind::BatteryPost => f.fused,
            _ => return None,
        };
        let rating = rating.map(quantity::Quantity::si);
        let amps = s.part_amps[id.0 as usize].abs();
        let short = rating.map_or_else(
            || d.limits.value("short through an unknown fuse"),
            |r| r * opens_at,
        );
        (amps >= short).then_some(Touch::OpensVehicles { amps, rating })
    });
    if let Some(touch) = sources.next() {
        return touch;
    }
    let on = unasked(d, state, s);
    match on.is_empty() {
        true => Touch::Nothing,
        false => Touch::TurnsOn(on),
    }
}

/// Every wire of every switch of a loom that was studied.
pub(crate) fn of(
    loom: &Loom,
    stock: &stock::Stock,
    habits: &crate::Habits,
    answers: &crate::Answers,
) -> Vec<Chafe> {
    let design = Design::answered(loom, stock, habits, answers);
    all(&design, &answers.heat)
}
