//! Whether a changed plan is cured: every fault of the same kind in the same circuits, tried on it. Wires may have got other
//! names on the way, so that what is left is known by what it joins.

use crate::Job;
use finding::Weight;
use loom::{Loom, WireId};
use std::collections::BTreeSet;
use study::{Asked, FaultCase, FaultFinding, Habits, Tries};

/// What is left of a finding once the plan is changed.
pub(super) struct Left {
    /// What was tried.
    pub tries: Tries,
    /// What still ends badly of it.
    pub found: Vec<FaultFinding>,
}

/// What a fault is about: its kind, what its wires join and what its parts are called, and where on them it is. Names move,
/// these stay.
type About = (usize, BTreeSet<String>, String);

/// What is left; none where nobody knows, because nothing of the kind could be tried. `others` are findings of their own.
pub(super) fn left(
    before: &Job,
    after: &Job,
    tries: &Tries,
    (trials, others): (&[usize], &[&FaultFinding]),
) -> Option<Left> {
    let (plan, loom, answers) = (after.plan()?, after.loom()?, after.answers()?);
    let known = before.loom()?;
    let mine: Vec<&FaultCase> = trials.iter().map(|t| &tries.cases[*t]).collect();
    let meets = |case: &FaultCase, other: &FaultCase| match case.circuits.is_empty() {
        true => other.circuits.is_empty(),
        false => case.circuits.iter().any(|c| other.circuits.contains(c)),
    };
    let wanted = |case: &FaultCase| mine.iter().any(|m| m.kind == case.kind && meets(m, case));
    let asked = Asked {
        cases: &wanted,
        state: None,
    };
    let habits = Habits::of(plan);
    let again = study::tries((loom, after.stock()), &habits, answers, &asked, &|_, _| {});
    if again.worst.iter().all(Option::is_none) {
        return None;
    }
    let elsewhere: BTreeSet<About> = others
        .iter()
        .flat_map(|f| &f.trials)
        .map(|t| about(known, &tries.cases[*t]))
        .collect();
    let mut found = study::told(loom, &again);
    for f in &mut found {
        f.trials
            .retain(|t| !elsewhere.contains(&about(loom, &again.cases[*t])));
    }
    // What could not be followed to its end is no cure either.
    found.retain(|f| f.finding.weight != Weight::Note && !f.trials.is_empty());
    Some(Left {
        tries: again,
        found,
    })
}

fn about(loom: &Loom, case: &FaultCase) -> About {
    let each = case.names.iter().map(|name| match loom.wire_named(name) {
        Some(wire) => joins(loom, wire),
        None => loom
            .part_named(name)
            .map_or_else(|| name.clone(), |p| loom.part(p).label.clone()),
    });
    let spot = case.at.split_once(", ").map_or("", |(_, spot)| spot);
    (case.kind, each.collect(), spot.to_owned())
}

/// "cab box fuse, cab box".
fn joins(loom: &Loom, wire: WireId) -> String {
    let w = loom.wire(wire);
    let label = |pin| &loom.part_of(pin).label;
    format!("{}, {}", label(w.from), label(w.to))
}

/// Entries of the plan for single wires that mean another wire once it is changed, in a sentence each.
pub(super) fn renamed(before: &Job, after: &Job) -> Vec<String> {
    let (Some(plan), Some(old), Some(new)) = (before.plan(), before.loom(), after.loom()) else {
        return Vec::new();
    };
    let names = plan.wires.iter().map(|w| &w.name.value);
    let moved = names.filter(|name| {
        let was = old.wire_named(name).map(|w| joins(old, w));
        let is = new.wire_named(name).map(|w| joins(new, w));
        was != is
    });
    moved
        .map(|name| format!("the plan's entry for {name} then means another wire"))
        .collect()
}
