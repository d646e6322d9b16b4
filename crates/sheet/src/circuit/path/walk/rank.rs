//! The order of branches at a splice. Takes the wires that leave it, gives each its rank.

use super::Walker;
use loom::{PartKind, WireId};

impl Walker<'_> {
    /// Which of several branches comes first: the one whose earth joins others soonest, so that the
    /// columns that meet below stand side by side.
    pub(super) fn rank(&self, wire: WireId) -> (usize, std::cmp::Reverse<usize>) {
        let mut pin = self.loom.wire(wire).to;
        let (mut splices, mut below) = (0, false);
        // No way is longer than the loom has pins.
        for _ in 0..self.loom.pins.len() {
            let part = self.loom.part_of(pin);
            match part.kind {
                PartKind::Load(_) if self.loom.pin(pin).terminal == "+" => {
                    below = true;
                    pin = self
                        .loom
                        .terminal(self.loom.pin(pin).part, "31")
                        .unwrap_or(pin);
                }
                PartKind::Earth(_) | PartKind::Battery { .. } => {
                    return (
                        self.loom.pin(pin).part.0 as usize,
                        std::cmp::Reverse(splices),
                    );
                }
                PartKind::Splice if below => splices += 1,
                _ => {}
            }
            let onward = self.wires_from(pin).first().map(|w| self.loom.wire(*w).to);
            let plugged = || self.partner(pin).map(|(p, _)| p);
            let after_plug =
                plugged().and_then(|p| self.wires_from(p).first().map(|w| self.loom.wire(*w).to));
            match onward.or(after_plug).or_else(plugged) {
                Some(next) => pin = next,
                None => break,
            }
        }
        (usize::MAX, std::cmp::Reverse(splices))
    }
}
