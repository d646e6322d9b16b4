//! Whether a changed plan is cured: the same faults tried on it, and if those are, every other of their kind in the same
//! circuits. Wires may have got other names on the way, so that a fault is known by what it joins.

use crate::Job;
use finding::Weight;
use loom::{Loom, WireId};
use std::collections::BTreeSet;
use study::{Asked, FaultCase, FaultFinding, Tries};

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

/// What is left; none where nobody knows, because nothing of the kind could be tried.
pub(super) fn left(before: &Job, after: &Job, tries: &Tries, trials: &[usize]) -> Option<Left> {
    let (known, loom) = (before.loom()?, after.loom()?);
    let mine: BTreeSet<About> = trials
        .iter()
        .map(|t| about(known, &tries.cases[*t]))
        .collect();
    let first = ill(after, &|case| mine.contains(&about(loom, case)))?;
    if !first.found.is_empty() {
        return Some(first);
    }
    // The same faults are cured; another of their kind in the same circuits may have come instead.
    let kind = tries.cases[*trials.first()?].kind;
    let circuits = circuits(known, tries, trials);
    let meets = |case: &FaultCase| match circuits.is_empty() {
        true => case.names.iter().any(|n| before_circuits(loom, n)),
        false => case.circuits.iter().any(|c| circuits.contains(c)),
    };
    let mut all = ill(after, &|case| case.kind == kind && meets(case))?;
    if all.tries.worst.iter().all(Option::is_none) {
        return None;
    }
    // What ended badly before as well is a finding of its own.
    let come: BTreeSet<About> = all
        .found
        .iter()
        .flat_map(|f| &f.trials)
        .map(|t| about(loom, &all.tries.cases[*t]))
        .collect();
    if !come.is_empty() {
        let was = ill(before, &|case| come.contains(&about(known, case)))?;
        let old: BTreeSet<About> = was
            .found
            .iter()
            .flat_map(|f| &f.trials)
            .map(|t| about(known, &was.tries.cases[*t]))
            .collect();
        for f in &mut all.found {
            f.trials
                .retain(|t| !old.contains(&about(loom, &all.tries.cases[*t])));
        }
        all.found.retain(|f| !f.trials.is_empty());
    }
    Some(all)
}

/// Some faults of a job, with what ends badly of them. What could not be followed to its end is no cure either.
fn ill(job: &Job, wanted: &dyn Fn(&FaultCase) -> bool) -> Option<Left> {
    let (loom, answers) = (job.loom()?, job.answers()?);
    let habits = job.habits()?;
    let asked = Asked {
        cases: wanted,
        state: None,
    };
    let tries = study::tries((loom, job.stock()), habits, answers, &asked, &|_, _| {});
    let mut found = study::told(loom, &tries);
    found.retain(|f| f.finding.weight != Weight::Note);
    Some(Left { tries, found })
}

/// The circuits of what comes on, or of what is harmed; else those that the faults are of; none for what lies before them
/// all.
fn circuits(loom: &Loom, tries: &Tries, trials: &[usize]) -> BTreeSet<usize> {
    let worst = trials.iter().filter_map(|t| tries.worst[*t].as_ref());
    let each = worst.flat_map(|t| {
        let on = t.unasked.iter().filter(|p| study::is_hazard(loom, **p));
        let on = on.filter_map(|p| loom.part(*p).circuit);
        on.chain(t.harmed.and_then(|w| loom.wire(w).circuit))
    });
    let found: BTreeSet<usize> = each.collect();
    if !found.is_empty() {
        return found;
    }
    let all = trials.iter().flat_map(|t| &tries.cases[*t].circuits);
    all.copied().collect()
}

/// Whether this is a wire of no circuit.
fn before_circuits(loom: &Loom, name: &str) -> bool {
    let wire = loom.wire_named(name);
    wire.is_some_and(|w| loom.wire(w).circuit.is_none())
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

/// Names of wires that mean another wire in a changed plan.
pub(super) fn renamed(before: &Job, after: &Job) -> Vec<String> {
    let (Some(old), Some(new)) = (before.loom(), after.loom()) else {
        return Vec::new();
    };
    let moved = old.each_wire().filter(|(id, w)| {
        let is = new.wire_named(&w.name).map(|w| joins(new, w));
        is != Some(joins(old, *id))
    });
    moved.map(|(_, w)| w.name.clone()).collect()
}
