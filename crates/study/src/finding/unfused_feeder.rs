//! Live wire that no fuse protects from its source on.

use super::About;
use crate::answers::Answers;
use crate::design::Design;
use finding::{Finding, Weight};
use loom::{PartKind, Role};

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
        let to_fuse = matches!(&d.loom.part_of(w.to).kind, PartKind::Fuse(f) if f.way.is_none());
        if w.role != Role::Feeder
            && w.fuse.is_none()
            && !w.bounded
            && !to_fuse
            && d.protection(id).is_none()
        {
            let from_signal = matches!(d.loom.part_of(w.from).kind, PartKind::Signal(_));
            let behind_signal = d
                .loom
                .each_wire()
                .any(|(_, o)| o.role == Role::Coil && o.circuit == w.circuit)
                && w.role == Role::Coil;
            // A signal's and an ignition tap's wiring is the vehicle's, fused by the vehicle.
            if from_signal || behind_signal {
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
    }
    found
}
