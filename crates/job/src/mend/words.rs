//! What was tried as a mend, in a sentence.

use super::Mend;

/// What to do, from what was tried.
pub(super) fn told(mends: &[Mend], else_: &str) -> String {
    let in_plan = |m: &Mend| {
        let each = m.changes.iter().map(|c| match &c.value {
            Some(value) => format!("{} = {value}", c.path),
            None => format!("{} taken out", c.path),
        });
        each.collect::<Vec<_>>().join(" and ")
    };
    match mends.split_last() {
        Some((last, others)) if last.cures => {
            let failed: Vec<&str> = others
                .iter()
                .filter(|m| !m.cures)
                .map(|m| m.says.as_str())
                .collect();
            let failed = match failed.is_empty() {
                true => String::new(),
                false => format!("; tried and not enough: {}", failed.join("; ")),
            };
            let but = match last.adds.is_empty() {
                true => String::new(),
                false => format!(", but brings: {}", last.adds.join("; ")),
            };
            let anew = match last.renumbers {
                true => "; wires get other numbers by it, so try again before the next mend",
                false => "",
            };
            format!(
                "{} (in the plan: {}). Tried: it cures this{but}{anew}{failed}",
                last.says,
                in_plan(last)
            )
        }
        Some(_) => {
            let failed: Vec<&str> = mends.iter().map(|m| m.says.as_str()).collect();
            format!(
                "tried, and none cures it: {}. What may: {else_}",
                failed.join("; ")
            )
        }
        None => format!("{else_}; nothing that a plan can say was found to try"),
    }
}
