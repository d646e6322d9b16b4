//! The class of each connector: every contact takes its wire, every seal closes on it, and each contact bears its current;
//! of the classes that do, the one with the smallest contact.

use super::{Plug, at};
use crate::answers::Answers;
use crate::design::Design;
use loom::{Loom, Mate, PartId, PartKind, WireId};
use quantity::{Quantity, amperes, figures, in_mm2};
use stock::{Connector, Stock};

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

/// The wires at a connector.
pub(crate) fn wires(loom: &Loom, part: PartId) -> Vec<WireId> {
    let pins = &loom.part(part).pins;
    pins.iter().flat_map(|pin| at(loom, *pin)).collect()
}

/// The classes that a connector may be of, by its ways and where it lies, whatever its wires.
pub(crate) fn classes<'a>(
    loom: &Loom,
    stock: &'a Stock,
    part: PartId,
) -> impl Iterator<Item = (usize, &'a Connector)> {
    let used = mates(loom, part).count() as u32;
    let sealed = loom.place(loom.part(part).place).wet;
    let may = move |c: &Connector| c.sealed == sealed && c.ways.iter().any(|w| *w >= used);
    let all = stock.connectors.iter().enumerate();
    all.filter(move |(_, c)| may(c))
}

fn plug(d: &Design, answers: &Answers, part: PartId) -> Plug {
    let p = d.loom.part(part);
    let wires = wires(d.loom, part);
    let used = mates(d.loom, part).count() as u32;
    let sealed = d.loom.place(p.place).wet;
    let amps = wires.iter().map(|w| answers.wires[w.0 as usize].amps);
    let amps = amps.fold(0.0, f64::max);
    let takes = |c: &Connector, w: &WireId| {
        let wire = d.conductor(*w);
        let carries = answers.wires[w.0 as usize].amps;
        c.takes(wire) && d.stock.contact_bears(c, wire.area).si() >= carries
    };
    let found = classes(d.loom, d.stock, part)
        .filter(|(_, c)| wires.iter().all(|w| takes(c, w)))
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
