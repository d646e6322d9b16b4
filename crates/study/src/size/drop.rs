//! Constraint: every load that hangs on the wire gets its voltage, along the shared path out and back.

use super::{Case, Verdict};
use crate::design::Design;
use crate::settle::Settled;
use loom::{LoadPart, PartId, PartKind, WireId};
use quantity::Quantity;
use stock::Conductor;

/// What a load loses on its way, as volts and as a part of the nominal voltage.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Lost {
    pub volts: f64,
    pub part: f64,
    pub limit: f64,
}

/// The load behind a part.
pub(crate) fn as_load<'a>(d: &Design<'a>, part: PartId) -> Option<&'a LoadPart> {
    match &d.loom.part(part).kind {
        PartKind::Load(l) => Some(l),
        _ => None,
    }
}

/// What a load loses between the battery's posts and its own pins.
pub(crate) fn lost(d: &Design, s: &Settled, load: PartId) -> Option<Lost> {
    let l = as_load(d, load)?;
    let posts = &d.loom.parts[0].pins;
    let pins = &d.loom.part(load).pins;
    let volts = s.at(posts[0]) - (s.at(pins[0]) - s.at(pins[1]));
    // A load that is off or cut out by its own choice draws nothing and loses nothing.
    let draws = s.part_amps[load.0 as usize].abs() > 1e-3;
    Some(Lost {
        volts: if draws { volts } else { 0.0 },
        part: if draws { volts / d.nominal() } else { 0.0 },
        limit: l.drop.si(),
    })
}

/// Volts that another conductor saves along a wire, at its settled current and heat.
pub(super) fn volts_saved(d: &Design, s: &Settled, wire: WireId, other: &Conductor) -> f64 {
    let i = wire.0 as usize;
    let ohms = |c: &Conductor| d.copper_ohms(wire, c, s.heat.mean[i]);
    (ohms(d.conductor(wire)) - ohms(other)) * s.wire_amps[i].abs()
}

/// Volts lost in the copper on a load's way, joints aside.
pub(crate) fn wire_loss(d: &Design, s: &Settled, load: PartId) -> f64 {
    let lost = |w: &WireId| {
        let i = w.0 as usize;
        d.copper_ohms(*w, d.conductor(*w), s.heat.mean[i]) * s.wire_amps[i].abs()
    };
    d.paths.way(load).map(lost).sum()
}

pub(super) fn judge(case: &Case) -> Option<Verdict> {
    let d = case.design;
    let loads = d.paths.loads(case.wire);
    let mut worst: Option<(f64, PartId, Lost)> = None;
    for s in case.settled {
        let more = -volts_saved(d, s, case.wire, case.conductor);
        for &load in loads {
            let Some(mut lost) = lost(d, s, load) else {
                continue;
            };
            lost.volts += more;
            lost.part += more / d.nominal();
            let margin = (lost.limit - lost.part) / lost.limit;
            if worst.as_ref().is_none_or(|(m, ..)| margin < *m) {
                worst = Some((margin, load, lost));
            }
        }
    }
    let (margin, load, lost) = worst?;
    Some(Verdict {
        rule: "drop",
        margin,
        says: case.say(|| {
            format!(
                "{} loses {} % of the {} % it may, out and back",
                d.loom.part(load).name,
                quantity::figures(lost.part * 100.0, 3),
                quantity::figures(lost.limit * 100.0, 3)
            )
        }),
        source: "the plan's limit; 3 % where it gives none (common practice)".into(),
    })
}
