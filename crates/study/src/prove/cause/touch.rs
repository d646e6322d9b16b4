//! Wires that have chafed through to the body.

use super::{Cause, Version};
use crate::change::{Change, Spot};
use crate::design::Design;
use loom::Role;

/// Resistance of where it touches, Ω: our own.
const TOUCH: f64 = 0.02;

pub(super) fn all(d: &Design) -> Vec<Cause> {
    let mut found = Vec::new();
    for (id, w) in d.loom.each_wire() {
        // What returns to earth already touches it.
        if matches!(w.role, Role::Earth | Role::Return) {
            continue;
        }
        let panel = w
            .stretches
            .iter()
            .any(|s| d.loom.stretch(*s).panel.is_some());
        let times = if panel {
            d.limits.value("at a panel")
        } else {
            1.0
        };
        let touch = |spot| Version {
            change: Change::to_body(spot, TOUCH + d.body_return()),
            ohms: None,
        };
        let versions = vec![
            touch(Spot::Pin(w.from)),
            touch(Spot::Middle(id)),
            touch(Spot::Pin(w.to)),
        ];
        let says = format!("{} touches the body somewhere", w.name);
        found.push(
            Cause {
                versions,
                ..Cause::new("wire-to-body", &w.name, says, Change::default())
            }
            .of(w.circuit).also_off().often(d, "wire to body", times)
            .mended("with the battery off, unplug what hangs on it and follow it to where it is bare; sleeve or replace it"),
        );
    }
    found
}
