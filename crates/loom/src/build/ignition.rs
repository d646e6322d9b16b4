//! Which circuits are dead without the ignition: the feed of their loads, or of their relay's coil, is live
//! with it only. On auto a coil hangs on its signal instead.

use super::Builder;
use crate::{Loom, LoomCircuit, PartKind, PinId};
use plan::FeedKind;

impl Builder<'_> {
    /// Notes it for every circuit, once all wires are there.
    pub(super) fn note_ignition(&mut self) {
        let needs: Vec<[bool; 2]> = self
            .loom
            .circuits
            .iter()
            .map(|c| needs(&self.loom, c))
            .collect();
        for (c, [on, auto]) in self.loom.circuits.iter_mut().zip(needs) {
            c.ignition |= on;
            c.ignition_on_auto = auto;
        }
    }
}

/// On, and on auto.
fn needs(loom: &Loom, c: &LoomCircuit) -> [bool; 2] {
    let tapped = |pin: PinId| on_tap(loom, pin);
    let loads = c
        .loads
        .first()
        .is_some_and(|l| tapped(loom.part(*l).pins[0]));
    let coil = c.relay.is_some_and(|r| tapped(loom.part(r).pins[2]));
    [loads || coil, loads]
}

/// Whether a pin hangs on an ignition tap in the end.
fn on_tap(loom: &Loom, mut pin: PinId) -> bool {
    // A step a pin at most: sources stand nowhere behind themselves.
    for _ in 0..=loom.pins.len() {
        if let PartKind::Feed(f) = &loom.part_of(pin).kind {
            return f.kind == FeedKind::IgnitionTap;
        }
        match loom.before(pin) {
            Some(before) => pin = before,
            None => return false,
        }
    }
    false
}
