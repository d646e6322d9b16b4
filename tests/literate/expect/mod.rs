//! One line of expectation against a walked plan. What a line may say is listed in tests/README.md.

mod figure;
mod part;
mod told;
mod wire;

use crate::walk::Walk;

/// Whether an expectation holds, or what is so instead.
pub(super) type Outcome = Result<(), String>;

pub(super) use told::{list, list_errors};

/// Checks what is said of a name.
type Checker = fn(&Walk, &str, &str) -> Outcome;

/// Words that stand between a name and what is said of it; the longest that fit come first.
const VERBS: &[(&str, Checker)] = &[
    (" is at least ", wire::at_least),
    (" is at most ", wire::at_most),
    (" is governed by ", wire::governed),
    (" is protected by ", wire::protected),
    (" is cut ", wire::cut),
    (" is for ", wire::role),
    (" has insulation ", wire::insulation),
    (" runs from ", wire::ends),
    (" passes ", wire::passes),
    (" has pins ", part::pins),
    (" stands at ", part::stands),
    (" protects ", part::protects),
    (" works ", part::works),
    (" can bear ", figure::bears),
    (" carries ", figure::amps),
    (" gets ", figure::volts),
    (" loses ", figure::lost),
    (" reaches ", figure::heat),
    (" is ", wire::or_part),
];

/// Checks one line.
pub(super) fn check(walk: &Walk, line: &str) -> Outcome {
    if let Some(outcome) = told::check(walk, line) {
        return outcome;
    }
    if !walk.errors().is_empty() {
        return Err(format!("the plan can't be read:{}", list_errors(walk)));
    }
    if let Some(outcome) = part::count(walk, line) {
        return outcome;
    }
    for (verb, checker) in VERBS {
        if let Some((name, rest)) = line.split_once(verb) {
            return checker(walk, name.trim(), rest.trim());
        }
    }
    Err("nobody knows what this line means; tests/README.md lists what can be said".to_owned())
}

/// Agreement of two texts.
fn same(ours: impl Into<String>, wanted: &str) -> Outcome {
    let ours = ours.into();
    if ours == wanted {
        Ok(())
    } else {
        Err(format!("it is {ours}"))
    }
}

fn unknown(what: &str, name: &str, known: impl Iterator<Item = String>) -> String {
    format!(
        "there is no {what} {name}, only {}",
        known.collect::<Vec<_>>().join(", ")
    )
}
