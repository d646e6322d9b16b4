//! A circuit's battery protection: between its fuse and its relay or switch, with a thin wire of its own
//! to earth, by which it knows the voltage.

use super::Builder;
use super::run::Trace;
use crate::{CutoutPart, PartId, PartKind, PinId, Role};
use plan::CutoutWish;
use quantity::amperes;

impl Builder<'_> {
    /// Adds it behind `out`.
    pub(super) fn add_cutout(
        &mut self,
        index: usize,
        wish: &CutoutWish,
        supply: Trace,
        out: PinId,
    ) -> PartId {
        let c = &self.plan.circuits[index];
        let draws = wish.draws.unwrap_or_else(|| {
            amperes(
                self.assumed
                    .number("draw of a cut-out", &mut self.loom.assumptions),
            )
        });
        let kind = PartKind::Cutout(CutoutPart {
            opens: wish.opens.value,
            closes: wish.closes.value,
            rating: wish.rating.map(|r| r.value),
            draws,
        });
        let at = (self.place(&wish.place.value), Some(index), wish.span);
        let label = format!("{} cut-out", c.name.value);
        let part = self.add_part(format!("Q{}", c.number), label, kind, at);
        let [input, _, minus] = ["30", "87", "31"].map(|t| self.add_pin(part, t));
        self.run(out, input, supply);
        let stands = Some((&wish.place, wish.earth.as_ref()));
        let earth = self.coil_earth(&c.earth, stands);
        let ground = self.earth(&earth);
        let earthed = Trace {
            role: Role::CoilEarth,
            bounded: true,
            ..supply
        };
        self.run(minus, ground, earthed);
        part
    }
}
