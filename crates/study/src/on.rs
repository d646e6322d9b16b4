//! What counts as on: each kind of load has its own threshold, and a coil is on when it has pulled in.

use crate::design::Design;
use crate::load::{self, Frame};
use crate::settle::Settled;
use crate::state::State;
use loom::{PartId, PartKind};
use plan::FeedKind;

/// Whether a load does anything that a person would notice.
pub(crate) fn load_on(d: &Design, s: &Settled, part: PartId) -> bool {
    let p = d.loom.part(part);
    let PartKind::Load(l) = &p.kind else {
        return false;
    };
    let frame = Frame {
        load: l,
        limits: &d.limits,
        nominal: d.nominal(),
    };
    let volts = s.across(p.pins[0], p.pins[1]);
    let amps = s.part_amps[part.0 as usize];
    (load::model(l.kind).on)(&frame, volts.abs(), amps.abs())
}

/// Whether the vehicle's own consumers on a wire that is to be dead get enough to notice: lamps that the plan
/// tells of glow; of others nothing is known, and half the nominal voltage counts as enough for something to work.
pub(crate) fn fed_backwards(d: &Design, s: &Settled, wire: PartId) -> bool {
    let part = d.loom.part(wire);
    let lamps = matches!(&part.kind, PartKind::Signal(s) if s.lamp.is_some());
    let rated = d.nominal() / 12.0 * d.limits.value("lamp volts");
    let enough = match lamps {
        true => d.limits.value("lamp glows") * rated,
        false => 0.5 * d.nominal(),
    };
    s.at(part.pins[0]) >= enough
}

/// Loads that are on though nobody asked for them, and wires of the vehicle that are fed from here: signals
/// that are not there, ignition taps with the key out.
pub(crate) fn unasked(d: &Design, state: &State, s: &Settled) -> Vec<PartId> {
    let mut found = Vec::new();
    for (i, c) in d.loom.circuits.iter().enumerate() {
        if !state.asks(d.loom, i) {
            found.extend(c.loads.iter().copied().filter(|l| load_on(d, s, *l)));
        }
    }
    for (id, p) in d.loom.each_part() {
        let dead = match &p.kind {
            PartKind::Signal(_) => !state.signals.contains(&id),
            PartKind::Feed(f) => f.kind == FeedKind::IgnitionTap && !state.supply.ignition(),
            _ => false,
        };
        if dead && fed_backwards(d, s, id) {
            found.push(id);
        }
    }
    found
}
