//! A fault that somebody makes with a touch: what it is called, what comes of it, moment by moment.

use crate::Job;
use sheet::Sheet;
use std::collections::BTreeMap;
use study::{Asked, Chosen, FAULTS, FaultCase, Outcome};

/// What came of a fault somewhere.
#[derive(Clone, Debug)]
pub struct Struck {
    /// Each way in which it was tried: what happened, what came of it, the outcome; the worst first.
    pub told: Vec<(String, String, Outcome)>,
    /// The worst of them over time, if anything warms.
    pub chart: Option<Sheet>,
    /// In which state; that which was chosen, if the study has it.
    pub state: String,
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
        let state = answers.states.iter().position(|s| s.state == seen);
        let wanted = |c: &FaultCase| FAULTS[c.kind].id == kind && c.names.iter().any(|n| n == at);
        let tries = self.tries_of(
            &Asked {
                cases: &wanted,
                state,
            },
            &|_, _| {},
        )?;
        let trials = tries.by_outcome();
        let worst = trials.first()?;
        let detail = self.try_closely(&tries, worst);
        let part = |id: &loom::PartId| loom.part(*id).name.clone();
        let harmed = worst.harmed.map(|w| loom.wire(w).name.clone());
        Some(Struck {
            told: trials
                .iter()
                .map(|t| (tries.cases[t.case].says.clone(), t.comes.clone(), t.outcome))
                .collect(),
            chart: detail.and_then(|d| self.fault_chart(&d)),
            state: answers.states[worst.state].state.name.clone(),
            struck: worst.unasked.iter().map(part).chain(harmed).collect(),
            opened: worst.opened.iter().map(|(f, _)| part(f)).collect(),
        })
    }
}
