//! Findings of what was tried: what burns, and what comes on unasked that does harm. Faults that end alike on the same
//! wire or load are told once, by the one that ends worst; how each is mended is tried elsewhere.

use super::Outcome;
use super::kind::KINDS;
use super::tries::{Trial, Tries};
use crate::Limits;
use finding::{At, Finding, Weight};
use loom::{Loom, PartId, PartKind, Role, WireId};
use quantity::Quantity;

/// Faults that end alike.
#[derive(Clone, Debug)]
pub struct FaultFinding {
    /// The finding; its mend says what kind of thing helps, before any is tried.
    pub finding: Finding,
    /// The trials, indices into [`Tries::worst`]; the worst first.
    pub trials: Vec<usize>,
}

/// What makes faults alike.
#[derive(PartialEq, Eq)]
enum Group {
    /// This wire, or whatever touches this one, burns, by this kind of fault.
    Burns(usize, String),
    /// A lead that only its place protects burns.
    ByPlace,
    /// These loads come on, by this kind of fault.
    On(usize, Vec<PartId>),
    /// It could not be followed.
    Lost,
}

/// Every finding, the heaviest first.
pub fn told(loom: &Loom, tries: &Tries) -> Vec<FaultFinding> {
    let mut groups: Vec<(Group, Vec<&Trial>)> = Vec::new();
    for trial in tries.by_outcome() {
        let kind = tries.cases[trial.case].kind;
        let group = match trial.outcome {
            Outcome::Overheats => burns(loom, tries, trial),
            Outcome::Unasked => Group::On(kind, hazards(loom, trial)),
            _ if trial.trouble.is_some() => Group::Lost,
            _ => continue,
        };
        if matches!(&group, Group::On(_, loads) if loads.is_empty()) {
            continue;
        }
        match groups.iter_mut().find(|(g, _)| *g == group) {
            Some((_, trials)) => trials.push(trial),
            None => groups.push((group, vec![trial])),
        }
    }
    let mut found: Vec<FaultFinding> = groups
        .into_iter()
        .map(|(group, trials)| tell(tries, &group, &trials))
        .collect();
    found.sort_by_key(|f| f.finding.weight);
    found
}

/// By what one thing all its like are mended: of two that touch the first, else the wire that burns.
fn burns(loom: &Loom, tries: &Tries, trial: &Trial) -> Group {
    let case = &tries.cases[trial.case];
    if by_its_place(loom, case.fuses.is_empty(), trial.harmed) {
        return Group::ByPlace;
    }
    let burnt = trial.harmed.map(|w| loom.wire(w).name.clone());
    let name = match &case.names[..] {
        [first, _] => first.clone(),
        _ => burnt.unwrap_or_default(),
    };
    Group::Burns(case.kind, name)
}

/// The loads of a trial that do harm when on unasked.
fn hazards(loom: &Loom, trial: &Trial) -> Vec<PartId> {
    let harmful = |p: &PartId| matches!(&loom.part(*p).kind, PartKind::Load(l) if l.hazard);
    trial.unasked.iter().copied().filter(harmful).collect()
}

fn tell(tries: &Tries, group: &Group, trials: &[&Trial]) -> FaultFinding {
    let first = trials[0];
    let case = &tries.cases[first.case];
    let mut names: Vec<String> = Vec::new();
    for name in trials.iter().flat_map(|t| &tries.cases[t.case].names) {
        if !names.contains(name) {
            names.push(name.clone());
        }
    }
    let more = match trials.len() {
        1 => String::new(),
        n => format!(" (and {} more like it)", n - 1),
    };
    let (id, weight, mend) = match group {
        Group::ByPlace => (
            "burns-by-place",
            Weight::Note,
            "nothing opens before the first fuse: keep this lead as short as it is, sheathed, clear of edges, and its post covered",
        ),
        Group::Burns(..) => (
            "burns",
            Weight::Stop,
            "a smaller fuse, a thicker wire, or a sleeve of its own",
        ),
        Group::On(..) => (
            "hazard-unasked",
            Weight::Stop,
            "a second thing that must be turned before it can run",
        ),
        Group::Lost => (
            "not-followed",
            Weight::Mend,
            "look at it closely with `--fault` and `--at`, and check it by hand",
        ),
    };
    FaultFinding {
        finding: Finding {
            id,
            weight,
            at: At::Names(names),
            says: format!("{}{more}", first.says),
            mend: mend.to_owned(),
            source: format!("tried: {}", KINDS[case.kind].source),
        },
        trials: trials.iter().map(|t| t.case).collect(),
    }
}

/// Whether a wire that nothing protects is one that need not be: from the battery or a stud to the first fuse, no
/// further than the rule allows.
fn by_its_place(loom: &Loom, unfused: bool, wire: Option<WireId>) -> bool {
    let Some(wire) = wire.filter(|_| unfused) else {
        // A post shorted itself has no wire to mend.
        return unfused;
    };
    let w = loom.wire(wire);
    let PartKind::Fuse(f) = &loom.part_of(w.to).kind else {
        return false;
    };
    let limits = Limits::default();
    let name = if f.sheathed {
        "fuse distance sheathed"
    } else {
        "fuse distance"
    };
    w.role == Role::Lead
        && f.from_source
            .is_some_and(|d| d.si() <= limits.value(name) * 1.001)
}
