//! Constraint: the wire bears what its fuse lets through. A fuse promises nothing below about 135 % of
//! its rating, so the wire must bear that current for as long as the fuse may take; and at a short
//! the fuse's slow edge must lie below the wire's damage curve.

use super::{Case, Verdict, table};
use loom::PartKind;
use physics::adiabatic;
use physics::wire_heat;
use quantity::{Quantity, ThermodynamicTemperature, amperes, in_mm2};
use stock::FuseKind;

pub(super) fn judge(case: &Case) -> Option<Verdict> {
    let (kind, rating) = before(case)?;
    let mut verdicts = vec![overload(case, kind, rating)];
    verdicts.extend(kind.and_then(|k| shorted(case, k, rating)));
    verdicts.extend(by_table(case, rating));
    verdicts
        .into_iter()
        .min_by(|a, b| a.margin.total_cmp(&b.margin))
}

/// Whether all holds that asks for no temperature.
pub(super) fn unheated(case: &Case) -> bool {
    let Some((kind, rating)) = before(case) else {
        return true;
    };
    let mut verdicts = kind.and_then(|k| shorted(case, k, rating)).into_iter();
    verdicts.all(|v| v.holds()) && by_table(case, rating).is_none_or(|v| v.holds())
}

/// The fuse that decides what a wire must bear: its class, if that is known, and its rating, A.
fn before<'a>(case: &Case<'a>) -> Option<(Option<&'a FuseKind>, f64)> {
    let d = case.design;
    let w = d.loom.wire(case.wire);
    if w.bounded {
        return None;
    }
    // No fuse saves the short lead before a main fuse from a short; but it carries what that fuse lets through.
    let ends_at = d.loom.pin(w.to).part;
    let ahead = matches!(d.loom.part(ends_at).kind, PartKind::Fuse(_)).then_some(ends_at);
    let fuse = w.fuse.or(ahead);
    let kind = fuse.and_then(|f| d.fuse(f)).map(|(k, _)| k);
    let rating = match fuse {
        Some(f) => d.fuse(f).map(|(_, r)| r.amps.si()),
        None => d.protection(case.wire),
    }?;
    Some((kind, rating))
}

/// The current that the fuse may carry without ever opening, borne by the insulation's overload limit.
fn overload(case: &Case, kind: Option<&FuseKind>, rating: f64) -> Verdict {
    let d = case.design;
    let multiple = kind
        .and_then(FuseKind::least_promised)
        .unwrap_or(d.limits.value("unknown fuse holds"));
    let amps = multiple * rating;
    let insulation = d.insulation(case.conductor);
    let above = d.limits.row("overload above class");
    let limit = insulation.limit.si() + above.value;
    let hottest = (0..case.settled.len())
        .map(|i| (case.kelvin(i, amps), i))
        .max_by(|a, b| a.0.total_cmp(&b.0));
    let (kelvin, state) = hottest.unwrap_or((0.0, 0));
    let around = case
        .settled
        .get(state)
        .map_or(limit, |s| s.heat.around[case.at()]);
    // Margins of heat grow with the square of current; a part of the limit in amperes compares with tables.
    let bears = wire_heat::steady_amps(
        &crate::heat::body(d, case.conductor),
        case.conductor.ohm_per_m_20,
        limit,
        around.min(limit - 1.0),
    );
    let margin = if kelvin <= limit {
        ((limit - kelvin) / (limit - around).max(1.0)).min((bears - amps) / bears)
    } else {
        (limit - kelvin) / limit
    };
    let shown = |k: f64| ThermodynamicTemperature::from_si(k.min(wire_heat::RUNAWAY_K)).show();
    Verdict {
        rule: "fuse",
        margin: if kelvin <= limit {
            margin.max(0.0)
        } else {
            margin
        },
        says: case.say(|| {
            format!(
                "its {} A fuse may carry {} without opening: the wire would reach {} of {}",
                quantity::figures(rating, 3),
                amperes(amps).show(),
                shown(kelvin),
                shown(limit)
            )
        }),
        source: case.say(|| format!("fuse gates; {}", above.cite())),
    }
}

/// At every gate quick enough to be adiabatic, the slow edge's I²t against the wire's k²S².
fn shorted(case: &Case, kind: &FuseKind, rating: f64) -> Option<Verdict> {
    let d = case.design;
    let insulation = d.insulation(case.conductor);
    let k = adiabatic::k_factor(
        &adiabatic::COPPER,
        insulation.limit.si(),
        insulation.damage.si(),
    );
    let bears = adiabatic::withstand(k, case.conductor.area.si());
    let gates = kind
        .gates
        .iter()
        .filter_map(|g| Some((g, g.max_s.filter(|t| *t <= adiabatic::LONGEST_S)?)));
    let (gate, seconds, let_through) = gates
        .map(|(g, t)| (g, t, (g.multiple * rating).powi(2) * t))
        .max_by(|a, b| a.2.total_cmp(&b.2))?;
    Some(Verdict {
        rule: "fuse",
        margin: (bears - let_through) / bears,
        says: case.say(|| {
            format!(
                "at {} its {} A fuse may take {} s and let {} A²s through; {} mm² bears {} A²s",
                amperes(gate.multiple * rating).show(),
                quantity::figures(rating, 3),
                quantity::figures(seconds, 3),
                quantity::figures(let_through, 4),
                quantity::figures(in_mm2(case.conductor.area), 3),
                quantity::figures(bears, 4)
            )
        }),
        source: case.say(|| {
            format!(
                "{}; k by IEC 60364-5-54 annex A from class to damage temperature",
                gate.origin
            )
        }),
    })
}

/// The rule set's own limit of fuse rating over allowed current.
fn by_table(case: &Case, rating: f64) -> Option<Verdict> {
    let table = case.design.table?;
    let allowed = table::allowed(case)?;
    let most = allowed.amps.si() * table.fuse_max_fraction;
    Some(Verdict {
        rule: "fuse",
        margin: (most - rating) / most,
        says: case.say(|| {
            format!(
                "{} A fuse against {} % of the {} that {} allows",
                quantity::figures(rating, 3),
                quantity::figures(table.fuse_max_fraction * 100.0, 3),
                allowed.amps.show(),
                table.name
            )
        }),
        source: case.say(|| table.fuse_origin.to_string()),
    })
}
