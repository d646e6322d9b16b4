//! What was tried as a mend, in a sentence.

use super::{Change, Mend};

/// What to do, from what was tried.
pub(super) fn told(mends: &[Mend], else_: &str) -> String {
    let in_plan = |m: &Mend| {
        let each: Vec<String> = m.changes.iter().map(line).collect();
        each.join(", and ")
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

/// A change as a person makes it: the entry of the plan, and the line in it.
fn line(change: &Change) -> String {
    let (entry, key) = change.path.split_once("].").unwrap_or(("", &change.path));
    let entry = match entry.split_once('[') {
        Some(("wire", name)) => format!("under [wire.\"{name}\"] "),
        Some((kind, name)) => format!("under [[{kind}]] “{name}” "),
        None => String::new(),
    };
    match &change.value {
        Some(value) => format!("{entry}write `{key} = {value}`"),
        None => format!("{entry}delete its line `{key} = …`"),
    }
}

#[test]
fn a_change_is_told_as_a_person_makes_it() {
    let change = |path: &str, value: Option<&str>| Change {
        path: path.to_owned(),
        value: value.map(str::to_owned),
    };
    assert_eq!(
        line(&change("wire[W2.2].sheathed", Some("true"))),
        "under [wire.\"W2.2\"] write `sheathed = true`"
    );
    assert_eq!(
        line(&change("box[cab box].fuse", None)),
        "under [[box]] “cab box” delete its line `fuse = …`"
    );
}
