//! What counts as on, and as too little to be on: each kind of load has its own threshold, and a coil is on when it has pulled in.

use crate::design::Design;
use crate::load::{self, Frame};
use crate::settle::Settled;
use crate::state::State;
use loom::{LoadPart, LoomCircuit, PartId, PartKind};
use plan::{FeedKind, LampKind, LoadKind};
use quantity::{Quantity, figures};

/// Whether a load does anything that a person would notice.
pub(crate) fn load_on(d: &Design, s: &Settled, part: PartId) -> bool {
    let p = d.loom.part(part);
    let PartKind::Load(l) = &p.kind else {
        return false;
    };
    let volts = s.across(p.pins[0], p.pins[1]);
    let amps = s.part_amps[part.0 as usize];
    (load::model(l.kind).on)(&frame(d, l), volts.abs(), amps.abs())
}

fn frame<'a>(d: &'a Design, load: &'a LoadPart) -> Frame<'a> {
    Frame {
        load,
        limits: &d.limits,
        nominal: d.nominal(),
    }
}

/// Whether the vehicle's own consumers on a wire that is to be dead get enough to notice: lamps that the plan
/// tells of glow; of others nothing is known, and a part of the nominal voltage counts as enough for something to work.
pub(crate) fn fed_backwards(d: &Design, s: &Settled, wire: PartId) -> bool {
    let part = d.loom.part(wire);
    let lamps = matches!(&part.kind, PartKind::Signal(s) if s.lamp.is_some());
    let rated = d.nominal() / 12.0 * d.limits.value("lamp volts");
    let enough = match lamps {
        true => d.limits.value("lamp glows") * rated,
        false => d.limits.value("something works") * d.nominal(),
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

/// A load that is asked for and gets less than it works at.
pub(crate) struct Weak {
    pub load: PartId,
    /// What it gets, V.
    pub volts: f64,
    /// What it works from, V.
    pub lowest: f64,
}

impl Weak {
    /// "E1 (radio) gets 8.1 V in “…” and works from 9 V up".
    pub fn says(&self, d: &Design, state: &State) -> String {
        let p = d.loom.part(self.load);
        format!(
            "{} ({}) gets {} V in “{}” and works from {} V up",
            p.name,
            p.label,
            figures(self.volts, 3),
            state.name,
            figures(self.lowest, 3)
        )
    }
}

/// Such loads, in the circuits that stand as they should.
pub(crate) fn weak<'a>(
    d: &'a Design,
    state: &'a State,
    s: &'a Settled,
    stands: impl Fn(&LoomCircuit) -> bool + 'a,
) -> impl Iterator<Item = Weak> + 'a {
    let circuits = d.loom.circuits.iter().enumerate();
    let asked = circuits.filter(move |(i, c)| state.asks(d.loom, *i) && stands(c));
    let loads = asked.flat_map(|(_, c)| c.loads.iter().copied());
    loads.filter_map(move |load| {
        let pins = &d.loom.part(load).pins;
        let (volts, lowest) = (s.across(pins[0], pins[1]), lowest(d, load)?);
        let weak = Weak {
            load,
            volts,
            lowest,
        };
        (volts < lowest).then_some(weak)
    })
}

/// The least voltage that a load works at: as said, or the usual one of electronics. Lamps, heaters and
/// motors have none.
fn lowest(d: &Design, load: PartId) -> Option<f64> {
    let PartKind::Load(l) = &d.loom.part(load).kind else {
        return None;
    };
    let electronic = matches!(
        l.kind,
        LoadKind::Electronics | LoadKind::Socket | LoadKind::Lamp(LampKind::Led)
    );
    let usual = electronic.then(|| frame(d, l).lowest());
    l.lowest.map(Quantity::si).or(usual)
}
