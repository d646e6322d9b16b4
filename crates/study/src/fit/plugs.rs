//! The class of each connector: every contact takes its wire, every seal closes on it, and each contact bears its current;
//! of the classes that do, the one with the smallest contact.

use super::{Plug, at};
use crate::answers::Answers;
use crate::design::Design;
use loom::{Loom, Mate, PartId, PartKind, WireId};
use quantity::{Quantity, amperes, figures, in_mm2};
use stock::Connector;

pub(super) fn all(d: &Design, answers: &Answers) -> Vec<Plug> {
    let parts = d.loom.each_part();
    let plugs = parts.filter(|(_, p)| matches!(p.kind, PartKind::Connector { .. }));
    plugs.map(|(id, _)| plug(d, answers, id)).collect()
}

/// The pairs that a connector plugs together; the far half of one may be a load's own pins.
pub(super) fn mates(loom: &Loom, part: PartId) -> impl Iterator<Item = &Mate> {
    let pins = &loom.part(part).pins;
    let mates = loom.mates.iter();
    mates.filter(move |m| pins.contains(&m.live) || pins.contains(&m.far))
}

fn plug(d: &Design, answers: &Answers, part: PartId) -> Plug {
    let p = d.loom.part(part);
    let wires: Vec<WireId> = p.pins.iter().flat_map(|pin| at(d.loom, *pin)).collect();
    let used = mates(d.loom, part).count() as u32;
    let sealed = d.loom.place(p.place).wet;
    let amps = wires.iter().map(|w| answers.wires[w.0 as usize].amps);
    let amps = amps.fold(0.0, f64::max);
    let takes = |c: &Connector| {
        let bears = |w: &WireId| {
            let carries = answers.wires[w.0 as usize].amps;
            d.stock.contact_bears(c, d.conductor(*w).area).si() >= carries
        };
        let sold = c.ways.iter().any(|w| *w >= used);
        let fits = |w: &WireId| {
            let wire = d.conductor(*w);
            let copper = (c.wire_min..=c.wire_max).contains(&wire.area);
            copper && (!sealed || c.seal(wire.area, wire.outside_d).is_some())
        };
        c.sealed == sealed && sold && wires.iter().all(|w| fits(w) && bears(w))
    };
    let classes = d.stock.connectors.iter().enumerate();
    let found = classes
        .filter(|(_, c)| takes(c))
        .min_by(|a, b| a.1.contact_mm.total_cmp(&b.1.contact_mm));
    let class = found.and_then(|(i, c)| Some((i, c.ways.iter().copied().find(|w| *w >= used)?)));
    let areas = wires.iter().map(|w| in_mm2(d.conductor(*w).area));
    let (least, most) = areas.fold((f64::INFINITY, 0.0_f64), |(l, m), a| (l.min(a), m.max(a)));
    let class = class.ok_or_else(|| {
        format!(
            "a {} connector of {used} ways for {} to {} mm² that bears {}",
            if sealed { "sealed" } else { "plain" },
            figures(least, 3),
            figures(most, 3),
            amperes(amps).show()
        )
    });
    Plug { part, used, class }
}
