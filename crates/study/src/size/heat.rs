//! Constraint: in its bundle and zone the conductor stays below its insulation's class temperature,
//! less the margin.

use super::{Case, Verdict};
use quantity::{Quantity, ThermodynamicTemperature};

pub(super) fn judge(case: &Case) -> Option<Verdict> {
    let d = case.design;
    let insulation = d.insulation(case.conductor);
    let limit = insulation.limit.si() - d.habits.margin_k;
    let (worst, state) = (0..case.settled.len())
        .map(|i| (case.kelvin(i, case.felt(i)), i))
        .max_by(|a, b| a.0.total_cmp(&b.0))?;
    let around = case.settled[state].heat.around[case.at()];
    let celsius = |k: f64| ThermodynamicTemperature::from_si(k).show();
    // The rise that is left, as a part of the rise that is allowed; none is allowed in too hot a place.
    let allowed = (limit - around).max(1.0);
    Some(Verdict {
        rule: "heat",
        margin: (limit - worst) / allowed,
        says: case.say(|| {
            format!(
                "{} where {} insulation may reach {}, around it {} (margin of {} K kept)",
                celsius(worst),
                insulation.name,
                celsius(limit),
                celsius(around),
                quantity::figures(d.habits.margin_k, 3)
            )
        }),
        source: case.say(|| format!("heat balance in the bundle; class by {}", insulation.origin)),
    })
}
