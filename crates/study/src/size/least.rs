//! Constraint: no wire thinner than can be crimped and pulled by hand.

use super::{Case, Verdict};
use quantity::in_mm2;

pub(super) fn judge(case: &Case) -> Option<Verdict> {
    let least = case.design.limits.row("least area");
    let area = in_mm2(case.conductor.area);
    Some(Verdict {
        rule: "least size",
        margin: area / least.value - 1.0 + 1e-6,
        says: case.say(|| {
            format!(
                "{} mm² against a least of {} mm²",
                quantity::figures(area, 3),
                least.value
            )
        }),
        source: case.say(|| least.cite()),
    })
}
