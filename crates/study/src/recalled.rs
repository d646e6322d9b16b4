//! What a study leans on that nobody read: figures from memory or common practice in the rows that
//! were chosen. They are good enough to plan with, and to be confirmed before they are relied on.

use crate::answers::{FuseAnswer, WireAnswer};
use crate::design::Design;
use crate::limits::LimitOf;
use finding::Basis;
use loom::PartKind;
use plan::{FeedKind, LampKind, LoadKind, SleeveWish};
use stock::Origin;

/// A figure that was not read in a document, and what it is of.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub struct Recalled {
    /// Whose figure: "resistance and area of 4 mm² thin-wall PVC".
    pub of: String,
    /// Source and basis.
    pub source: String,
    /// How it was had.
    pub basis: Basis,
}

/// Collects each figure once.
struct List(Vec<Recalled>);

impl List {
    fn add(&mut self, of: String, origin: &Origin) {
        if !matches!(origin.basis, Basis::Memory | Basis::Common) {
            return;
        }
        let new = Recalled {
            of,
            source: origin.source.clone(),
            basis: origin.basis,
        };
        if !self.0.contains(&new) {
            self.0.push(new);
        }
    }
}

/// Every such figure behind these answers, in the order of the report's tables.
pub(crate) fn gather(d: &Design, wires: &[WireAnswer], fuses: &[FuseAnswer]) -> Vec<Recalled> {
    let mut list = List(Vec::new());
    for w in wires {
        let c = &d.stock.conductors[w.conductor];
        list.add(format!("resistance of {} wire", c.family.word()), &c.origin);
        list.add(
            format!("diameters of {} wire", c.family.word()),
            &c.diameter_origin,
        );
        let i = d.insulation(c);
        list.add(format!("temperatures of {} insulation", i.name), &i.origin);
        list.add(
            format!("heat figures of {} insulation", i.name),
            &i.heat_origin,
        );
    }
    for f in fuses {
        let kind = &d.stock.fuses[f.kind];
        list.add(
            format!("breaking capacity of the {}", kind.name),
            &kind.origin,
        );
        list.add(
            format!("continuous load of the {}", kind.name),
            &kind.continuous_origin,
        );
        list.add(
            format!("heat factor of the {}", kind.name),
            &kind.ambient_origin,
        );
        for g in &kind.gates {
            list.add(format!("opening times of the {}", kind.name), &g.origin);
        }
        if let Some(r) = kind.rating(f.rating_a) {
            list.add(
                format!("cold resistance of the {}", kind.name),
                &r.resistance_origin,
            );
        }
    }
    parts(d, &mut list);
    joints(d, &mut list);
    limits(d, &mut list);
    if let Some(table) = d.table {
        list.add(format!("currents of {}", table.name), &table.origin);
        list.add(
            format!("engine-space factors of {}", table.name),
            &table.engine_origin,
        );
    }
    list.0
}

fn parts(d: &Design, list: &mut List) {
    for (id, p) in d.loom.each_part() {
        match &p.kind {
            PartKind::Relay(r) => {
                let Some(kind) = d.stock.relay(&r.kind, d.loom.supply.system.volts()) else {
                    continue;
                };
                list.add(
                    format!("coil of the {} relay", kind.name),
                    &kind.coil_origin,
                );
                list.add(
                    format!("contact resistance of the {} relay", kind.name),
                    &kind.contact_origin,
                );
                list.add(
                    format!("contact rating of the {} relay", kind.name),
                    &kind.make.load_origin,
                );
            }
            PartKind::Switch(_) => {
                let Some(kind) = d.choice.switches[id.0 as usize].map(|k| &d.stock.switches[k])
                else {
                    continue;
                };
                list.add(format!("rating of the {} switch", kind.name), &kind.origin);
                list.add(
                    format!("contact resistance of the {} switch", kind.name),
                    &kind.contact_origin,
                );
            }
            _ => {}
        }
    }
}

fn joints(d: &Design, list: &mut List) {
    let of_wires = d
        .loom
        .wires
        .iter()
        .flat_map(|w| w.joints.iter().flatten().copied());
    for name in of_wires.chain(d.loom.mates.iter().map(|m| m.joint)) {
        if let Some(j) = d.stock.joint(name) {
            list.add(format!("resistance of a joint: {name}"), &j.origin);
        }
    }
}

/// Rows of the table of limits, as far as something in this loom depends on them.
fn limits(d: &Design, list: &mut List) {
    for row in d
        .limits
        .rows()
        .iter()
        .filter(|r| r.of == LimitOf::Study && decides(d, &r.name))
    {
        let origin = Origin {
            source: row.source.clone(),
            basis: row.basis,
        };
        let value = quantity::figures(row.value, 3);
        list.add(
            format!("{}: {value} {}", row.name, row.unit)
                .trim_end()
                .to_owned(),
            &origin,
        );
    }
}

/// Whether anything in this loom depends on a row of the table of limits.
fn decides(d: &Design, name: &str) -> bool {
    let any = |test: fn(&PartKind) -> bool| d.loom.parts.iter().any(|p| test(&p.kind));
    let has = |wanted: LoadKind| {
        let mut kinds = d.loom.parts.iter().filter_map(|p| match &p.kind {
            PartKind::Load(l) => Some(l.kind),
            _ => None,
        });
        kinds.any(|k| k == wanted)
    };
    let led = || has(LoadKind::Lamp(LampKind::Led));
    let electronics = || has(LoadKind::Electronics) || has(LoadKind::Socket);
    let alternator = d.loom.supply.alternator.as_ref();
    match name {
        "motor start seconds" | "motor start multiple" | "motor creeps" => has(LoadKind::Motor),
        "heater warms" => has(LoadKind::Heater),
        "electronic start seconds"
        | "electronic start multiple"
        | "lowest volts of electronics" => electronics() || led(),
        "electronics wake" => electronics(),
        "LED glows" => led(),
        "lamp glows" | "lamp volts" => {
            has(LoadKind::Lamp(LampKind::Tungsten))
                || any(|k| matches!(k, PartKind::Signal(s) if s.lamp.is_some()))
        }
        "sleeve conductivity" | "sleeve emissivity" => {
            let sleeved =
                |s: &loom::LoomStretch| s.sleeve != SleeveWish::Open && !s.wires.is_empty();
            d.loom.stretches.iter().any(sleeved)
        }
        "regulated volts" | "regulated spread" => alternator.is_some_and(|a| a.volts.is_none()),
        "regulation" | "float charge" => alternator.is_some(),
        "cut-out contact"
        | "cut-out far too low"
        | "cut-out opens at"
        | "cut-out below rest"
        | "cut-out closes at" => any(|k| matches!(k, PartKind::Cutout(_))),
        "something works" => any(|k| {
            matches!(k, PartKind::Signal(s) if s.lamp.is_none())
                || matches!(k, PartKind::Feed(f) if f.kind == FeedKind::IgnitionTap)
        }),
        "post clamp" => any(|k| matches!(k, PartKind::Feed(f) if f.kind == FeedKind::BatteryPost)),
        // Of the supply over time, which lists its own, of comparisons, or always chosen from stock.
        "charge that cranks"
        | "least charge of lead"
        | "least charge of lithium"
        | "touch"
        | "fuse opens"
        | "short through an unknown fuse"
        | "switch contact" => false,
        _ => true,
    }
}
