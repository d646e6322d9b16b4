//! A fault that somebody makes with a touch: what it is called, what comes of it, moment by moment.

use crate::Job;
use finding::Weight;
use sheet::Sheet;
use std::collections::BTreeMap;
use study::{Asked, Chosen, FAULTS, FaultCase, Outcome};

/// One way in which a fault was tried.
#[derive(Clone, Debug)]
pub struct Blow {
    /// What happened.
    pub says: String,
    /// What came of it.
    pub comes: String,
    /// The same in a word.
    pub outcome: Outcome,
    /// How much it weighs, if anything is to be found in it.
    pub weight: Option<Weight>,
}

/// What came of a fault somewhere.
#[derive(Clone, Debug)]
pub struct Struck {
    /// Each way in which it was tried; the worst first.
    pub told: Vec<Blow>,
    /// The worst of them over time, if anything warms.
    pub chart: Option<Sheet>,
    /// In which state the worst of them was tried.
    pub state: String,
    /// Why that is not the one that was chosen, if it is not.
    pub instead: Option<String>,
    /// Names of what is harmed, or on unasked.
    pub struck: Vec<String>,
    /// Names of the fuses that opened.
    pub opened: Vec<String>,
}

impl Job {
    /// By name of wire or part: what a fault of this kind does there, in a phrase.
    pub fn can_strike(&self, kind: &str) -> BTreeMap<String, String> {
        let cases = self.fault_cases().unwrap_or_default();
        let mut found = BTreeMap::new();
        for case in cases.into_iter().filter(|c| FAULTS[c.kind].id == kind) {
            for name in &case.names {
                found
                    .entry(name.clone())
                    .or_insert_with(|| case.says.clone());
            }
        }
        found
    }

    /// Makes a fault of a kind at a wire or part. None where there is no such fault.
    pub fn strike(&self, chosen: &Chosen, kind: &str, at: &str) -> Option<Struck> {
        let (loom, answers) = (self.loom()?, self.answers()?);
        let seen = self.look(chosen)?.state;
        let wanted = |c: &FaultCase| FAULTS[c.kind].id == kind && c.names.iter().any(|n| n == at);
        let cases = self.fault_cases()?;
        let supplies = cases.iter().find(|c| wanted(c))?.supplies;
        let studied = answers.states.iter().position(|s| s.state == seen);
        let happens = supplies.includes(seen.supply);
        let instead = match (happens, studied) {
            (false, _) => Some(format!("this happens only {}", supplies.words())),
            (true, None) => Some(format!(
                "“{}” is not among the states that are studied",
                seen.name
            )),
            (true, Some(_)) => None,
        };
        let state = studied.filter(|_| happens);
        let asked = Asked {
            cases: &wanted,
            state,
        };
        let tries = self.tries_of(&asked, &|_, _| {})?;
        let found = study::told(loom, &tries);
        let weight = |case: usize| {
            let mine = found.iter().filter(|f| f.trials.contains(&case));
            mine.map(|f| f.finding.weight).min()
        };
        let trials = tries.by_outcome();
        let worst = trials.first()?;
        let detail = self.try_closely(&tries, worst);
        let part = |id: &loom::PartId| loom.part(*id).name.clone();
        let harmed = worst.harmed.map(|w| loom.wire(w).name.clone());
        Some(Struck {
            told: trials
                .iter()
                .map(|t| Blow {
                    says: tries.cases[t.case].says.clone(),
                    comes: t.comes.clone(),
                    outcome: t.outcome,
                    weight: weight(t.case),
                })
                .collect(),
            chart: detail.and_then(|d| self.fault_chart(&d)),
            state: answers.states[worst.state].state.name.clone(),
            instead,
            struck: worst.unasked.iter().map(part).chain(harmed).collect(),
            opened: worst.opened.iter().map(|(f, _)| part(f)).collect(),
        })
    }
}
