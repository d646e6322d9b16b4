//! Joints that resist: at the ends of wires, in plugs, on earth points, in fuse holders, in contacts.

use super::{Cause, SIZES, Version, circuits_of, pin_times, place_times};
use crate::change::{Change, Poor};
use crate::design::Design;
use loom::PartKind;
use plan::EarthReturn;

pub(super) fn all(d: &Design) -> Vec<Cause> {
    let mut found = Vec::new();
    for (id, w) in d.loom.each_wire() {
        let times: f64 = [w.from, w.to]
            .iter()
            .zip(&w.joints)
            .map(|(pin, joints)| pin_times(d, *pin) * joints.len().min(2) as f64)
            .sum();
        let says = format!(
            "a joint of {} resists: at {} or at {}",
            w.name,
            d.loom.pin_name(w.from),
            d.loom.pin_name(w.to)
        );
        found.push(
            sized("joint-poor", &w.name, says, Poor::Wire(id))
                .of(w.circuit)
                .often(d, "poor joint", times)
                .mended("look at both ends, pull at them, crimp the bad one anew"),
        );
    }
    for (i, m) in d.loom.mates.iter().enumerate() {
        // Of a fuse or a relay in its holder the pin, of a plug the half that is fed.
        let plugged = matches!(d.loom.part_of(m.live).kind, PartKind::Connector { .. });
        let named = if plugged { m.live } else { m.far };
        let plug = d.loom.part_of(named);
        let pin = d.loom.pin_name(named);
        let cause = sized(
            "plug-poor",
            &pin,
            format!("the contact at {pin} resists"),
            Poor::Mate(i),
        );
        found.push(
            Cause {
                names: vec![plug.name.clone()],
                ..cause
            }
            .of(circuits_of(d, d.loom.pin(m.live).part))
            .often(d, "poor plug", place_times(d, plug.place))
            .mended(
                "unplug it, look for green and for a spread socket, clean or replace the contact",
            ),
        );
    }
    for (id, p) in d.loom.each_part() {
        let times = place_times(d, p.place);
        let cause = match &p.kind {
            PartKind::Earth(e) if e.to == EarthReturn::Body => {
                let says = format!("{} ({}) makes a poor earth", p.name, p.label);
                sized("earth-poor", &p.name, says, Poor::Earth(id))
                    .often(d, "poor earth", times)
                    .mended("take it off, bare the metal, bolt it on again and grease it")
            }
            PartKind::Fuse(_) => {
                let says = format!("the holder of {} ({}) resists", p.name, p.label);
                sized("holder-poor", &p.name, says, Poor::Fuse(id))
                    .often(d, "poor fuse holder", times)
                    .mended(
                        "look whether it is burnt, clean or replace the holder, put in a new fuse",
                    )
            }
            PartKind::Relay(_) | PartKind::Switch(_) | PartKind::Cutout(_) => {
                let says = format!("the contact of {} ({}) resists", p.name, p.label);
                sized("contact-poor", &p.name, says, Poor::Contact(id))
                    .often(d, "poor contact", times)
                    .mended("replace it")
            }
            _ => continue,
        };
        found.push(cause.of(circuits_of(d, id)));
    }
    found
}

fn sized(kind: &'static str, at: &str, says: String, poor: Poor) -> Cause {
    let versions = SIZES.map(|ohms| version(poor, ohms)).to_vec();
    Cause {
        versions,
        ..Cause::new(kind, at, says, Change::default())
    }
}

/// So much more resistance at a joint.
pub(crate) fn version(poor: Poor, ohms: f64) -> Version {
    Version {
        change: Change {
            joint: Some((poor, ohms)),
            ..Change::default()
        },
        ohms: Some(ohms),
    }
}
