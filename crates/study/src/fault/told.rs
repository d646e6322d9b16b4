//! Findings of what was tried: what burns, and what comes on unasked that does harm. Faults that end alike on the same
//! wire or load are told once, by the one that ends worst; how each is mended is tried elsewhere.

use super::Outcome;
use super::kind::KINDS;
use super::trial::Trial;
use super::tries::Tries;
use crate::limits::Limits;
use finding::{At, Finding, Weight};
use loom::{Loom, PartId, PartKind, Role, WireId};
use plan::SupplyState;
use quantity::Quantity;

/// What a finding of faults is about.
pub struct Told {
    /// Stable short name.
    pub id: &'static str,
    /// How much it weighs.
    pub weight: Weight,
    /// The question it asks of every fault.
    pub asks: &'static str,
    /// What kind of thing helps, before any is tried.
    mend: &'static str,
}

/// Every finding that trying faults can make, in the order in which equals are told.
pub const TOLD: [&Told; 5] = [&BURNS, &HAZARD, &LOST, &LARGER, &BY_PLACE];

const BURNS: Told = Told {
    id: "burns",
    weight: Weight::Stop,
    asks: "Does anything open before a wire is harmed?",
    mend: "a smaller fuse, a thicker wire, or a sleeve of its own",
};
const HAZARD: Told = Told {
    id: "hazard-unasked",
    weight: Weight::Stop,
    asks: "Can one thing that goes wrong turn on a load that does harm, or the starter?",
    mend: "a second thing that must be turned before it can run",
};
const LOST: Told = Told {
    id: "not-followed",
    weight: Weight::Mend,
    asks: "Could every fault be followed to its end?",
    mend: "look at it closely with `--fault` and `--at`, and check it by hand",
};
const LARGER: Told = Told {
    id: "burns-with-larger-fuse",
    weight: Weight::Note,
    asks: "Which wire burns if somebody fits the next size of fuse and its load draws too much?",
    mend: "write the rating beside the fuse, and fit no larger one",
};
const BY_PLACE: Told = Told {
    id: "burns-by-place",
    weight: Weight::Note,
    asks: "Which leads does nothing protect but their place?",
    mend: "nothing opens before the first fuse: keep this lead as short as it is, sheathed, clear of edges, and its post covered",
};

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
    /// A wire behind this fuse burns once the next size is in its place and a load draws too much: two things gone wrong.
    Larger(PartId),
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
    let limits = Limits::default();
    for trial in tries.by_outcome() {
        let kind = tries.cases[trial.case].kind;
        let ended = match trial.outcome {
            Outcome::Overheats => Some(burns((loom, &limits), tries, trial)),
            Outcome::Unasked => Some(Group::On(kind, hazards(loom, trial))),
            _ => None,
        };
        // What could not be followed may end worse than it had until then.
        let lost = trial.trouble.as_ref().map(|_| Group::Lost);
        let harmless = |g: &Group| matches!(g, Group::On(_, loads) if loads.is_empty());
        for group in ended.into_iter().chain(lost).filter(|g| !harmless(g)) {
            match groups.iter_mut().find(|(g, _)| *g == group) {
                Some((_, trials)) => trials.push(trial),
                None => groups.push((group, vec![trial])),
            }
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
fn burns((loom, limits): (&Loom, &Limits), tries: &Tries, trial: &Trial) -> Group {
    let case = &tries.cases[trial.case];
    if by_its_place((loom, limits), case.fuses.is_empty(), trial.harmed) {
        return Group::ByPlace;
    }
    if let (Some(fuse), true) = (case.swapped, case.slow) {
        return Group::Larger(fuse);
    }
    let burnt = trial.harmed.map(|w| loom.wire(w).name.clone());
    let touch = case.changes[trial.change].touch;
    let name = match &case.names[..] {
        [first, _] if touch.is_some() => first.clone(),
        _ => burnt.unwrap_or_default(),
    };
    Group::Burns(case.kind, name)
}

/// What of a trial does harm when it is on unasked.
fn hazards(loom: &Loom, trial: &Trial) -> Vec<PartId> {
    let harmful = |p: &PartId| is_hazard(loom, *p);
    trial.unasked.iter().copied().filter(harmful).collect()
}

/// Whether a part does harm when it is on unasked: a load that the plan marks so, and the starter.
pub fn is_hazard(loom: &Loom, part: PartId) -> bool {
    match &loom.part(part).kind {
        PartKind::Load(l) => l.hazard,
        PartKind::Signal(s) => s.when == [SupplyState::Cranking],
        _ => false,
    }
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
    let told = match group {
        Group::ByPlace => BY_PLACE,
        Group::Larger(_) => LARGER,
        Group::Burns(..) => BURNS,
        Group::On(..) => HAZARD,
        Group::Lost => LOST,
    };
    FaultFinding {
        finding: Finding {
            id: told.id,
            weight: told.weight,
            at: At::Names(names),
            says: format!("{}{more}", first.says),
            mend: told.mend.to_owned(),
            source: format!("tried: {}", KINDS[case.kind].source),
        },
        trials: trials.iter().map(|t| t.case).collect(),
    }
}

/// Whether a wire that nothing protects is one that need not be: from the battery or a stud to the first fuse, no
/// further than the rule allows.
fn by_its_place((loom, limits): (&Loom, &Limits), unfused: bool, wire: Option<WireId>) -> bool {
    let Some(wire) = wire.filter(|_| unfused) else {
        // A post shorted itself has no wire to mend.
        return unfused;
    };
    let w = loom.wire(wire);
    let PartKind::Fuse(f) = &loom.part_of(w.to).kind else {
        return false;
    };
    let name = if f.sheathed {
        "fuse distance sheathed"
    } else {
        "fuse distance"
    };
    w.role == Role::Lead
        && f.from_source
            .is_some_and(|d| d.si() <= limits.value(name) * 1.001)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::fault::{Asked, tries};
    use crate::finding::by_hand::studied_farm;

    fn ids(found: &[FaultFinding]) -> Vec<&'static str> {
        found.iter().map(|f| f.finding.id).collect()
    }

    /// No plan is known with a fault that can't be followed, so trouble is put in by hand.
    #[test]
    fn what_could_not_be_followed_is_told_however_it_had_ended_until_then() {
        studied_farm(|d, answers| {
            let wanted = Asked {
                cases: &|case| case.at == "W0.1, middle" || case.at == "W2.7, middle",
                state: None,
            };
            let asked = (d.loom, d.stock);
            let mut tries = tries(asked, d.habits, answers, &wanted, &|_, _| {});
            assert_eq!(ids(&told(d.loom, &tries)), ["burns-by-place"]);
            for trial in tries.worst.iter_mut().flatten() {
                trial.trouble = Some("no balance".into());
            }
            let found = told(d.loom, &tries);
            assert_eq!(ids(&found), ["not-followed", "burns-by-place"]);
            assert_eq!(found[0].trials.len(), 2, "{:?}", found[0].finding);
            assert_eq!(found[0].finding.weight, Weight::Mend);
        });
    }
}
