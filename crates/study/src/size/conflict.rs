//! Why no size keeps a load's limit: the fewest bounds on wires of its way that stand against it, and what would do without
//! them. A thicker wire never loses more, so that a limit which the thickest wires break is broken by all; and what stands
//! against it is what keeps them from being thicker.

use super::lost;
use crate::design::Design;
use crate::settle::Settled;
use loom::{PartId, WireId};
use quantity::{Quantity, figures, in_mm2};
use stock::Conductor;

/// The conflict in words: which bounds, what would do, or what limit the thickest wires keep. Nothing where the thickest
/// wires would keep the limit.
pub(crate) fn words(d: &Design, s: &Settled, load: PartId) -> Option<String> {
    let lost = lost(d, s, load)?;
    let limit = lost.limit * d.nominal();
    let way: Vec<WireId> = d.paths.way(load).copied().collect();
    let thickest = |w: WireId| {
        let list = &d.candidates[w.0 as usize];
        &d.stock.conductors[list[list.len() - 1]]
    };
    let volts = |w: WireId, c: &Conductor| {
        let at = w.0 as usize;
        s.wire_amps[at].abs() * d.copper_ohms(w, c, s.heat.mean[at])
    };
    // What it loses where each wire is as `of` says.
    let loses = |of: &dyn Fn(WireId) -> f64| {
        let now: f64 = way.iter().map(|w| volts(*w, d.conductor(*w))).sum();
        lost.volts - now + way.iter().map(|w| of(*w)).sum::<f64>()
    };
    let at_most = loses(&|w| volts(w, thickest(w)));
    if at_most <= limit {
        return None;
    }
    let most = way
        .iter()
        .map(|w| in_mm2(thickest(*w).area))
        .fold(0.0, f64::max);
    let percent = |volts: f64| figures((volts / d.nominal() * 100.0 * 10.0).ceil() / 10.0, 3);
    let (least, now) = (percent(at_most), percent(lost.volts));
    // Other rules may keep the wires thin: a fuse must be able to break what thick wires before it let through.
    let instead = match least == now {
        true => format!(
            "allow {least} % with `drop`, which up to {} mm² keeps",
            figures(most, 3)
        ),
        false => format!(
            "allow {now} % with `drop`, which these sizes keep ({least} % with up to {} mm², if no other rule keeps them thin)",
            figures(most, 3)
        ),
    };
    // With a size freely chosen in the place of whatever is thinner, for the wires that are let free.
    let freed = |free: &[WireId], c: &Conductor| {
        loses(&|w| {
            let now = volts(w, thickest(w));
            match free.contains(&w) {
                true => now.min(volts(w, c)),
                false => now,
            }
        })
    };
    let kinds = thicker(d, way.first().map(|w| thickest(*w))?);
    let enough = |free: &[WireId]| kinds.iter().copied().find(|c| freed(free, c) <= limit);
    let Some(all) = enough(&way) else {
        let tail = "no size in stock would keep it whatever its ends took";
        return Some(format!(
            "{instead}; or a shorter way, a nearer earth: {tail}"
        ));
    };
    // The fewest: one alone if one does, else those that can't be left bound.
    let one = way.iter().find_map(|w| Some((vec![*w], enough(&[*w])?)));
    let (free, size) = one.unwrap_or_else(|| {
        let mut free: Vec<WireId> = way.clone();
        for w in &way {
            let rest: Vec<WireId> = free.iter().copied().filter(|x| x != w).collect();
            if enough(&rest).is_some() {
                free = rest;
            }
        }
        let size = enough(&free).unwrap_or(all);
        (free, size)
    });
    let bounds: Vec<String> = free.iter().map(|w| bound(d, *w)).collect();
    Some(format!(
        "{instead}; or {}: {} mm² would do; or a shorter way, a nearer earth",
        bounds.join(", "),
        figures(in_mm2(size.area), 3)
    ))
}

/// Wire of the same kind, the thinnest first.
fn thicker<'a>(d: &Design<'a>, like: &Conductor) -> Vec<&'a Conductor> {
    let same = |c: &&Conductor| {
        (c.family, &c.insulation, &c.wall) == (like.family, &like.insulation, &like.wall)
            && d.limits.is_usual(c.size)
    };
    let mut all: Vec<&Conductor> = d.stock.conductors.iter().filter(same).collect();
    all.sort_by(|a, b| a.area.si().total_cmp(&b.area.si()));
    all
}

/// Why a wire is no thicker.
fn bound(d: &Design, wire: WireId) -> String {
    let w = d.loom.wire(wire);
    let list = &d.candidates[wire.0 as usize];
    let thickest = &d.stock.conductors[list[list.len() - 1]];
    let most = figures(in_mm2(thickest.area), 3);
    let mut next = thicker(d, thickest).into_iter();
    let next = next.find(|c| c.area > thickest.area);
    let ends = format!("{} and {}", d.loom.pin_name(w.from), d.loom.pin_name(w.to));
    let studs = crate::fit::Table::default();
    if w.set.size.is_some() {
        format!("leave the size of {} out of the plan", w.name)
    } else if !d.habits.sizes.is_empty() {
        format!(
            "allow {} more than the {most} mm² that `sizes` of [job] end at",
            w.name
        )
    } else if next.is_some_and(|c| !crate::ends::takes(d.loom, d.stock, &studs, (wire, c))) {
        format!(
            "join {} otherwise, whose ends {ends} take {most} mm²",
            w.name
        )
    } else {
        format!("look for {} in more than the {most} mm² in stock", w.name)
    }
}
