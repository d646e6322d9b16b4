//! Live wire that no fuse protects from its source on.

use super::About;
use crate::answers::Answers;
use crate::design::Design;
use finding::{Finding, Weight};
use loom::{PartKind, PinId, Role};
use plan::FeedKind;

pub(super) const ABOUT: About = About {
    id: "unfused-feeder",
    weight: Weight::Stop,
    asks: "Is there a fuse at the source of every live wire?",
    source: "33 CFR 183.455(b) (read): overcurrent protection at the source of power",
    find,
};

fn find(d: &Design, _: &Answers) -> Vec<Finding> {
    let mut found = Vec::new();
    for (id, w) in d.loom.each_wire() {
        let live = !matches!(w.role, Role::Earth | Role::CoilEarth | Role::Return);
        let to_fuse = matches!(&d.loom.part_of(w.to).kind, PartKind::Fuse(f) if f.way.is_none());
        if !live
            || to_fuse
            || w.fuse.is_some()
            || d.protection(id).is_some()
            || fused_by_vehicle(d, w.from)
        {
            continue;
        }
        let (a, b) = (d.loom.pin_name(w.from), d.loom.pin_name(w.to));
        found.push(ABOUT.at(
            [w.name.clone()],
            format!(
                "{} runs live from {a} to {b} with no fuse: a chafe lets the battery burn it",
                w.name
            ),
            "fit a fuse at the source: leave `fuse = false` out of the plan, and it is chosen",
        ));
    }
    found
}

/// Whether a pin is fed from inside the vehicle's own wiring, which the vehicle fuses: a signal, an
/// ignition tap, a spare way.
fn fused_by_vehicle(d: &Design, from: PinId) -> bool {
    let mut pin = from;
    for _ in 0..=d.loom.parts.len() {
        match &d.loom.part_of(pin).kind {
            PartKind::Signal(_) => return true,
            PartKind::Feed(f) => {
                return matches!(f.kind, FeedKind::IgnitionTap | FeedKind::SpareWay);
            }
            _ => {}
        }
        match d.loom.before(pin) {
            Some(before) => pin = before,
            None => return false,
        }
    }
    false
}
