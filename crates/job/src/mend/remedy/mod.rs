//! Mends for what a check finds, where one is known: what a person set is left to be chosen, what bares live metal is taken
//! back, a switch that carries too much works a relay. Each is tried on the plan before it is called one.
//!
//! | file | mends |
//! |---|---|
//! | `part` | of a part that a finding names |
//! | `set` | of what a person set for a wire or a fuse |

mod part;
mod set;

use super::Change;
use crate::{Job, Source};
use finding::Finding;
use loom::Part;
use plan::entry;
use plan::form::{Edit, How, edited};

/// What may mend a finding.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Remedy {
    /// What to do, in words.
    pub says: String,
    how: Does,
}

#[derive(Clone, Debug, PartialEq, Eq)]
enum Does {
    Changes(Vec<Change>),
    Edit(Edit),
}

/// What came of a remedy.
#[derive(Clone, Debug)]
pub struct Remedied {
    /// What was done.
    pub says: String,
    /// The plan with it.
    pub text: String,
    /// What is found then that was not before, in sentences; notes aside.
    pub adds: Vec<String>,
}

/// Remedies that are gathered for a finding.
struct Gathered<'a> {
    job: &'a Job,
    /// What kind of finding.
    id: &'static str,
    found: Vec<Remedy>,
}

impl Gathered<'_> {
    fn add(&mut self, remedy: Remedy) {
        if !self.found.contains(&remedy) {
            self.found.push(remedy);
        }
    }

    fn change(&mut self, says: String, path: String, value: Option<String>) {
        let how = Does::Changes(vec![Change { path, value }]);
        self.add(Remedy { says, how });
    }

    /// What a person wrote is taken out.
    fn take(&mut self, says: String, path: String) {
        self.change(says, path, None);
    }

    /// A circuit is switched another way.
    fn switch(&mut self, says: String, circuit: String, how: How) {
        let how = Does::Edit(Edit::How { circuit, how });
        self.add(Remedy { says, how });
    }

    /// Grommets where a plan says that there are none.
    fn grommets(&mut self) {
        let stretches = self.job.plan().map_or(&[][..], |p| &p.stretches);
        for (i, s) in stretches.iter().enumerate() {
            if s.through.as_ref().is_some_and(|t| !t.grommet) {
                let [a, b] = [&s.between[0].value, &s.between[1].value];
                let path = entry("stretch", &(i + 1).to_string());
                self.take(
                    format!("a grommet from {a} to {b}"),
                    format!("{path}.through.grommet"),
                );
            }
        }
    }
}

impl Job {
    /// What may mend a finding of this job, the least work first. Nothing is tried yet.
    pub fn remedies(&self, finding: &Finding) -> Vec<Remedy> {
        let mut gathered = Gathered {
            job: self,
            id: finding.id,
            found: Vec::new(),
        };
        for name in finding.names() {
            let part = self.part_named(name);
            if let Some(part) = part {
                gathered.for_a_part(part);
            }
            gathered.for_what_is_set(name, part);
        }
        match finding.id {
            "no-grommet" => gathered.grommets(),
            "fuse-breaking" => gathered.other_fuses(finding),
            _ => {}
        }
        gathered.found
    }

    fn part_named(&self, name: &str) -> Option<&Part> {
        self.loom()?.parts.iter().find(|p| p.name == name)
    }

    /// The path of the circuit that a part belongs to.
    fn circuit_of(&self, part: &Part) -> Option<(String, &plan::Circuit)> {
        let circuit = self.plan()?.circuits.get(part.circuit?)?;
        Some((entry("circuit", &circuit.name.value), circuit))
    }

    /// Tries what may mend a finding, one after the other, until it is gone; of those that bring other trouble, the first.
    /// None if nothing known mends it.
    pub fn remedied(&self, finding: &Finding) -> Option<Remedied> {
        let mut second = None;
        for remedy in self.remedies(finding) {
            let Some((text, job)) = self.with_remedy(&remedy) else {
                continue;
            };
            let Some(answers) = job.answers() else {
                continue;
            };
            let same = |name: &String| finding.names().contains(name);
            let still = |f: &Finding| f.id == finding.id && f.names().iter().any(same);
            if answers.findings.iter().any(still) {
                continue;
            }
            let done = Remedied {
                says: remedy.says,
                text,
                adds: self.new_findings(&job),
            };
            if done.adds.is_empty() {
                return Some(done);
            }
            second.get_or_insert(done);
        }
        second
    }

    fn with_remedy(&self, remedy: &Remedy) -> Option<(String, Self)> {
        let job = match &remedy.how {
            Does::Changes(changes) => self.changed(changes)?,
            Does::Edit(edit) => {
                let [plan, stock @ ..] = self.sources() else {
                    return None;
                };
                let text = edited(&plan.text, edit).ok()?;
                let name = plan.name.clone();
                let job = Self::read(Source { name, text }, stock.to_vec());
                job.errors().is_empty().then_some(job)?
            }
        };
        let job = if self.at_once { job.at_once() } else { job };
        Some((job.sources().first()?.text.clone(), job))
    }

    /// The text of this job's plan with changes made.
    ///
    /// # Errors
    /// If the plan can't take them.
    pub fn text_with(&self, changes: &[Change]) -> Result<String, plan::EditError> {
        let text = self.sources().first().map_or("", |s| s.text.as_str());
        let mut editor = plan::Editor::new(text)?;
        for change in changes {
            match &change.value {
                Some(value) => editor.set(&change.path, value)?,
                None => editor.remove(&change.path)?,
            }
        }
        Ok(editor.to_string())
    }
}

#[cfg(test)]
mod tests;
