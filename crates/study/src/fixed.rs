//! What a loom's network is made of whatever is chosen, looked up once: joints, classes of relays, laws of
//! loads. A survey builds thousands of networks from it.

use crate::limits::Limits;
use crate::load::{self, Frame};
use loom::{Loom, PartId, PartKind, PinId};
use physics::network::Law;
use stock::{RelayKind, Stock};

/// The lookups.
pub(crate) struct Fixed<'a> {
    /// By wire: resistance of the joints at both ends, Ω.
    pub joint_ohms: Vec<f64>,
    /// By plugged pair: resistance, Ω.
    pub mate_ohms: Vec<f64>,
    /// By part: the class of a relay.
    pub relays: Vec<Option<&'a RelayKind>>,
    /// By part: for a relay, the feed or signal that its coil is supplied from in the end.
    pub works: Vec<Option<PartId>>,
    /// By part: the law of a load.
    pub laws: Vec<Option<Law>>,
    /// Resistance of a switch that is not chosen yet, Ω.
    pub switch_ohms: f64,
}

impl<'a> Fixed<'a> {
    pub fn new(loom: &Loom, stock: &'a Stock, limits: &Limits) -> Self {
        let joint = |name: &str| {
            let found = stock.joint(name);
            found.map_or_else(|| panic!("stock has no joint “{name}”"), |j| j.ohms)
        };
        let nominal = loom.supply.system.nominal();
        let volts = loom.supply.system.volts();
        let relay = |p: &loom::Part| match &p.kind {
            PartKind::Relay(r) => stock.relay(&r.kind, volts),
            _ => None,
        };
        let works = |p: &loom::Part| match &p.kind {
            PartKind::Relay(_) => rooted_at(loom, p.pins[2]),
            _ => None,
        };
        let law = |p: &loom::Part| match &p.kind {
            PartKind::Load(load) => {
                let frame = Frame {
                    load,
                    limits,
                    nominal,
                };
                Some((load::model(load.kind).law)(&frame))
            }
            _ => None,
        };
        Self {
            joint_ohms: loom
                .wires
                .iter()
                .map(|w| w.joints.iter().flatten().map(|j| joint(j)).sum())
                .collect(),
            mate_ohms: loom.mates.iter().map(|m| joint(m.joint)).collect(),
            relays: loom.parts.iter().map(relay).collect(),
            works: loom.parts.iter().map(works).collect(),
            laws: loom.parts.iter().map(law).collect(),
            switch_ohms: limits.value("switch contact"),
        }
    }
}

/// The part that a pin is fed from in the end, through whatever lies between.
pub(crate) fn rooted_at(loom: &Loom, mut pin: PinId) -> Option<PartId> {
    // A step a pin at most: sources stand nowhere behind themselves.
    for _ in 0..=loom.pins.len() {
        match loom.before(pin) {
            Some(before) => pin = before,
            None => return Some(loom.pin(pin).part),
        }
    }
    None
}
