//! Constraint: the current stays within the rule set's table, by wire size, insulation, engine space
//! and, where the rule set has them, bundling factors.

use super::{Case, Verdict};
use quantity::{Quantity, amperes, in_celsius};
use stock::Allowed;

/// What the table allows a conductor on this wire's way: the least of its stretches.
pub(crate) fn allowed(case: &Case) -> Option<Allowed> {
    let d = case.design;
    let table = d.table?;
    let w = d.loom.wire(case.wire);
    let celsius = in_celsius(d.insulation(case.conductor).limit);
    let here = |engine: bool, bundled: u32| {
        table.allowed(
            case.conductor.size,
            case.conductor.area,
            celsius,
            engine,
            bundled,
        )
    };
    let mut least: Option<Allowed> = None;
    let mut forbidden = false;
    let mut take = |a: Option<Allowed>| match a {
        Some(a) if least.as_ref().is_none_or(|l| a.amps < l.amps) => least = Some(a),
        Some(_) => {}
        None => forbidden = true,
    };
    for s in &w.stretches {
        let stretch = d.loom.stretch(*s);
        let bundled = if table.bundle.is_empty() {
            1
        } else {
            loaded(case, *s)
        };
        take(here(stretch.engine_space, bundled));
    }
    if w.stretches.is_empty() {
        let zone = d.loom.place(w.places[0]).zone;
        let engine = matches!(
            zone,
            plan::Zone::EngineBay | plan::Zone::EngineSpace | plan::Zone::NearExhaust
        );
        take(here(engine, 1));
    }
    least.filter(|_| !forbidden)
}

/// Wires of a bundle that count for its factor, the judged one included: those loaded to less than
/// half of what they may carry alone are left out (boat practice, read).
fn loaded(case: &Case, stretch: loom::StretchId) -> u32 {
    let d = case.design;
    let lying = d.loom.stretch(stretch);
    let counts = |w: &&loom::WireId| {
        let c = d.conductor(**w);
        let celsius = in_celsius(d.insulation(c).limit);
        let alone = d
            .table
            .and_then(|t| t.allowed(c.size, c.area, celsius, lying.engine_space, 1));
        let amps = case
            .settled
            .iter()
            .map(|s| s.wire_amps[w.0 as usize].abs())
            .fold(0.0, f64::max);
        **w != case.wire && alone.is_none_or(|a| amps >= a.amps.si() / 2.0)
    };
    1 + lying.wires.iter().filter(counts).count() as u32
}

pub(super) fn judge(case: &Case) -> Option<Verdict> {
    let table = case.design.table?;
    let amps = case.amps();
    let source = case.say(|| table.origin.to_string());
    let Some(allowed) = allowed(case) else {
        return Some(Verdict {
            rule: "table",
            margin: -1.0,
            says: case.say(|| {
                format!(
                    "{} has no row for {} in its place",
                    table.name, case.conductor.id
                )
            }),
            source,
        });
    };
    let limit = allowed.amps.si();
    Some(Verdict {
        rule: "table",
        margin: (limit - amps) / limit,
        says: case.say(|| {
            format!(
                "{} of the {} that {} allows ({})",
                amperes(amps).show(),
                allowed.amps.show(),
                table.name,
                allowed.note
            )
        }),
        source,
    })
}
