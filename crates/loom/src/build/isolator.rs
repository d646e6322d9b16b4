//! A circuit's isolator: a switch by hand in its whole supply, before its relay or switch.

use super::Builder;
use super::run::Trace;
use crate::{PartKind, PinId, SwitchPart};
use plan::IsolatorWish;

impl Builder<'_> {
    /// Adds it behind `out`; gives the pin behind it.
    pub(super) fn add_isolator(
        &mut self,
        index: usize,
        wish: &IsolatorWish,
        supply: Trace,
        out: PinId,
    ) -> PinId {
        let c = &self.plan.circuits[index];
        let kind = PartKind::Switch(SwitchPart {
            positions: 2,
            breaks: None,
            kind: wish.kind.clone(),
            rating: wish.rating.map(|r| r.value),
            bare: false,
            isolator: true,
        });
        let at = (self.place(&wish.place.value), Some(index), wish.span);
        let label = format!("{} isolator", c.name.value);
        let part = self.add_part(format!("S{}.1", c.number), label, kind, at);
        let [input, output] = ["82", "82a"].map(|t| self.add_pin(part, t));
        self.run(out, input, supply);
        output
    }
}
