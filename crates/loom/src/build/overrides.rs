//! What the installer set for single wires, laid over what was worked out.

use super::Builder;
use super::ways::Way;
use crate::Colour;
use finding::{Finding, nearest};
use plan::WireWish;
use quantity::{Quantity, metres};

impl Builder<'_> {
    /// Applies every `[wire]` entry, and reports one that no wire bears.
    pub(super) fn apply_overrides(&mut self) {
        let plan = self.plan;
        for wish in &plan.wires {
            let Some(at) = self
                .loom
                .wires
                .iter()
                .position(|w| w.name == wish.name.value)
            else {
                self.unknown_wire(wish);
                continue;
            };
            self.check_insulation(wish);
            if !wish.route.is_empty() {
                self.reroute(at, wish);
            }
            let wire = &mut self.loom.wires[at];
            wire.set.size = wish.size;
            wire.set.sheathed |= wish.sheathed;
            wire.set.insulation = wish.insulation.as_ref().map(|i| i.value.clone());
            if let Some((base, stripe)) = wish.colour.as_ref().map(|c| c.value.clone()) {
                wire.colour = Colour { base, stripe };
                wire.set.colour = true;
            }
            if let Some(length) = wish.length {
                wire.cut = length.value;
                wire.set.length = true;
            }
        }
    }

    fn unknown_wire(&mut self, wish: &WireWish) {
        let names = self.loom.wires.iter().map(|w| w.name.as_str());
        let mend = match nearest(&wish.name.value, names) {
            Some(near) => format!("did you mean “{near}”? `spurline check` lists every wire"),
            None => "`spurline check` lists every wire by name".to_owned(),
        };
        let says = format!("no wire is called “{}”", wish.name.value);
        self.errors
            .push(Finding::error("unknown-wire", wish.name.span, says, mend));
    }

    fn check_insulation(&mut self, wish: &WireWish) {
        let Some(insulation) = &wish.insulation else {
            return;
        };
        if self.stock.insulation(&insulation.value).is_none() {
            self.error(
                "unknown-insulation",
                insulation.span,
                format!("stock has no insulation “{}”", insulation.value),
                "see `spurline stock insulation` for those there are",
            );
        }
    }

    /// Sends a wire by the places given: each leg takes the shortest way.
    fn reroute(&mut self, at: usize, wish: &WireWish) {
        let old = &self.loom.wires[at];
        let (from, to) = (old.from, old.to);
        let mut stops = vec![self.loom.part_of(from).place];
        stops.extend(wish.route.iter().map(|n| self.place(&n.value)));
        stops.push(self.loom.part_of(to).place);
        stops.dedup();
        let mut way = Way {
            places: vec![stops[0]],
            stretches: Vec::new(),
        };
        for leg in stops.windows(2) {
            let Some(next) = self.way(leg[0], leg[1], wish.name.span) else {
                return;
            };
            way.places.extend(&next.places[1..]);
            way.stretches.extend(&next.stretches);
        }
        let length: f64 = way
            .stretches
            .iter()
            .map(|s| self.loom.stretch(*s).length.si())
            .sum();
        let wire = &mut self.loom.wires[at];
        let beyond_route = wire.cut.si() - wire.length.si();
        wire.places = way.places;
        wire.stretches = way.stretches;
        wire.length = metres(length);
        wire.cut = metres(length + beyond_route);
    }
}
