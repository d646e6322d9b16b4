//! Mends for what a check finds, where one is known: what a person set is left to be chosen, what bares live metal is taken
//! back, a switch that carries too much works a relay. Each is tried on the plan before it is offered as done.

use super::Change;
use crate::{Job, Source};
use finding::{Finding, Weight};
use loom::{Part, PartKind};
use plan::entry;
use plan::form::{Edit, How, edited};
use quantity::Quantity;

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

impl Job {
    /// What may mend a finding of this job, the least work first. Nothing is tried yet.
    pub fn remedies(&self, finding: &Finding) -> Vec<Remedy> {
        let mut found = Vec::new();
        let take = |says: String, path: String| Remedy {
            says,
            how: Does::Changes(vec![Change { path, value: None }]),
        };
        for name in finding.names() {
            let part = self.part_named(name);
            if let Some(part) = part {
                self.for_a_part(finding.id, part, &take, &mut found);
            }
            self.for_what_is_set(finding.id, name, part, &take, &mut found);
        }
        if finding.id == "fuse-breaking" {
            self.other_fuses(finding, &mut found);
        }
        if finding.id == "no-grommet" {
            let bare = self.plan().map_or(&[][..], |p| &p.stretches);
            for (i, s) in bare.iter().enumerate() {
                if s.through.as_ref().is_some_and(|t| !t.grommet) {
                    let path = entry("stretch", &(i + 1).to_string());
                    let says = format!(
                        "a grommet from {} to {}",
                        s.between[0].value, s.between[1].value
                    );
                    found.push(take(says, format!("{path}.through.grommet")));
                }
            }
        }
        let mut seen: Vec<Remedy> = Vec::new();
        for remedy in found {
            if !seen.contains(&remedy) {
                seen.push(remedy);
            }
        }
        seen
    }

    fn part_named(&self, name: &str) -> Option<&Part> {
        self.loom()?.parts.iter().find(|p| p.name == name)
    }

    /// The path of the circuit that a part belongs to.
    fn circuit_of(&self, part: &Part) -> Option<(String, &plan::Circuit)> {
        let circuit = self.plan()?.circuits.get(part.circuit?)?;
        Some((entry("circuit", &circuit.name.value), circuit))
    }

    /// Fuses that break more, for the box or the circuit whose fuses break too little.
    fn other_fuses(&self, finding: &Finding, found: &mut Vec<Remedy>) {
        let first = finding.names().first().and_then(|n| self.part_named(n));
        let Some(PartKind::Fuse(fuse)) = first.map(|p| &p.kind) else {
            return;
        };
        let circuit = first.and_then(|p| self.circuit_of(p));
        let of_box = fuse
            .way
            .map(|(id, _)| self.loom().map(|l| l.part(id).label.clone()));
        let (path, of) = match (of_box.flatten(), circuit) {
            (Some(name), _) => (format!("{}.kind", entry("box", &name)), name),
            (None, Some((path, c))) => (format!("{path}.fuse.kind"), c.name.value.clone()),
            (None, None) => return,
        };
        let mut kinds: Vec<&stock::FuseKind> = self.stock().fuses.iter().collect();
        kinds.sort_by(|a, b| a.breaking.si().total_cmp(&b.breaking.si()));
        found.extend(kinds.into_iter().map(|kind| Remedy {
            says: format!("fuses of the kind “{}” for “{of}”", kind.name),
            how: Does::Changes(vec![Change {
                path: path.clone(),
                value: Some(format!("\"{}\"", kind.name)),
            }]),
        }));
    }

    fn for_a_part(
        &self,
        id: &str,
        part: &Part,
        take: &dyn Fn(String, String) -> Remedy,
        found: &mut Vec<Remedy>,
    ) {
        let circuit = self.circuit_of(part);
        match (id, &part.kind) {
            ("switch-overloaded", PartKind::Switch(_)) => {
                let Some((path, c)) = circuit else { return };
                if c.relay.is_none() {
                    found.push(Remedy {
                        says: format!(
                            "a relay for “{}”, which the switch then works",
                            c.name.value
                        ),
                        how: Does::Edit(Edit::How {
                            circuit: path,
                            how: How::Relay,
                        }),
                    });
                } else if let Some(s) = &c.switch {
                    if s.rating.is_some() {
                        found.push(take(
                            format!("a switch that bears it for “{}”", c.name.value),
                            format!("{path}.switch.rating"),
                        ));
                    }
                    if s.kind.is_some() {
                        found.push(take(
                            format!("a switch that is chosen for “{}”", c.name.value),
                            format!("{path}.switch.kind"),
                        ));
                    }
                }
            }
            ("contact-overloaded" | "relay-hot", _) => {
                let Some((path, c)) = circuit else { return };
                if c.relay.as_ref().is_some_and(|r| r.kind.is_some()) {
                    found.push(take(
                        format!("a relay that is chosen for “{}”", c.name.value),
                        format!("{path}.relay.kind"),
                    ));
                }
            }
            ("unshrouded-live", _) => {
                let says = || format!("a cover over {} ({})", part.name, part.label);
                let path = match &part.kind {
                    PartKind::Battery { .. } => Some("supply.battery".to_owned()),
                    PartKind::Box(_) => Some(entry("box", &part.label)),
                    PartKind::Feed(_) => Some(entry("feed", &part.label)),
                    _ => None,
                };
                found.extend(path.map(|p| take(says(), format!("{p}.cover"))));
            }
            ("bare-tab", _) => {
                let Some((path, c)) = circuit else { return };
                for (what, bare) in [
                    ("relay", c.relay.as_ref().is_some_and(|r| r.bare)),
                    ("switch", c.switch.as_ref().is_some_and(|s| s.bare)),
                ] {
                    if bare {
                        found.push(take(
                            format!("insulated receptacles on the {what} of “{}”", c.name.value),
                            format!("{path}.{what}.bare"),
                        ));
                    }
                }
            }
            ("poor-earth", PartKind::Earth(_)) => {
                let earths = self.plan().map_or(&[][..], |p| &p.earths);
                if earths.iter().any(|e| e.name.value == part.label) {
                    let path = entry("earth", &part.label);
                    found.push(take(
                        format!("“{}” on bare metal of the body itself", part.label),
                        format!("{path}.surface"),
                    ));
                }
            }
            ("cutout-overloaded", _) => {
                let Some((path, c)) = circuit else { return };
                if c.cutout.as_ref().is_some_and(|o| o.rating.is_some()) {
                    found.push(take(
                        format!("a battery protection that bears it for “{}”", c.name.value),
                        format!("{path}.cutout.rating"),
                    ));
                }
            }
            _ => {}
        }
    }

    /// What a person set, left to be chosen: the size or colour of a wire, a fuse, or where it sits.
    fn for_what_is_set(
        &self,
        id: &str,
        name: &str,
        part: Option<&Part>,
        take: &dyn Fn(String, String) -> Remedy,
        found: &mut Vec<Remedy>,
    ) {
        let (Some(plan), Some(loom)) = (self.plan(), self.loom()) else {
            return;
        };
        let wire = loom.wire_named(name).map(|id| loom.wire(id));
        let wish = plan.wires.iter().find(|w| w.name.value == name);
        if let Some(wish) = wish {
            let path = entry("wire", name);
            if matches!(id, "earth-colour" | "same-colour") {
                if wish.colour.is_some() {
                    found.push(take(
                        format!("the colour of {name} left to be chosen"),
                        format!("{path}.colour"),
                    ));
                }
                return;
            }
            if wish.size.is_some() {
                found.push(take(
                    format!("the size of {name} left to be chosen"),
                    format!("{path}.size"),
                ));
            }
            if wish.insulation.is_some() {
                found.push(take(
                    format!("the insulation of {name} left to be chosen"),
                    format!("{path}.insulation"),
                ));
            }
        }
        if matches!(id, "earth-colour" | "same-colour" | "no-terminal") {
            return;
        }
        // The fuse before a wire, or the part itself: whose is it in the plan?
        let fuse = wire.and_then(|w| w.fuse).map(|f| loom.part(f)).or(part);
        let fuse = fuse.filter(|p| matches!(p.kind, PartKind::Fuse(_)) || p.circuit.is_some());
        let of_circuit = fuse.and_then(|p| self.circuit_of(p));
        let of_wire = wire.and_then(|w| plan.circuits.get(w.circuit?));
        let circuit = of_circuit.map(|(_, c)| c).or(of_wire);
        let wishes = circuit
            .map(|c| {
                (
                    entry("circuit", &c.name.value),
                    &c.fuse,
                    c.name.value.as_str(),
                )
            })
            .into_iter()
            .chain(
                plan.boxes
                    .iter()
                    .map(|b| (entry("box", &b.name.value), &b.fuse, b.name.value.as_str())),
            );
        let unfused = matches!(id, "unfused-feeder" | "unfused-in-cab");
        for (path, fuse, of) in wishes {
            let is_box = path.starts_with("box");
            let mine = !is_box || circuit.is_none();
            if !mine {
                continue;
            }
            if !fuse.fitted && unfused {
                found.push(take(
                    format!("a fuse where the feeder of “{of}” begins"),
                    format!("{path}.fuse"),
                ));
            }
            if fuse.rating.is_some() && !unfused && id.contains("fuse") {
                let key = if self.is_long(&path) {
                    "fuse.rating"
                } else {
                    "fuse"
                };
                found.push(take(
                    format!("the fuse of “{of}” left to be chosen"),
                    format!("{path}.{key}"),
                ));
            }
            if id == "fuse-far" && fuse.within.is_some() {
                found.push(Remedy {
                    says: format!(
                        "the fuse of “{of}” within {} of where its feeder begins",
                        super::candidates::NEAR
                    ),
                    how: Does::Changes(vec![Change {
                        path: format!("{path}.fuse.within"),
                        value: Some(format!("\"{}\"", super::candidates::NEAR)),
                    }]),
                });
            }
        }
    }

    /// Whether a fuse is written in its long form.
    fn is_long(&self, path: &str) -> bool {
        let text = self.sources().first().map_or("", |s| s.text.as_str());
        let written = plan::Written::read(text);
        let mut long = false;
        plan::form::each(&written, &mut |at, _, _| {
            long |= at == format!("{path}.fuse.rating");
        });
        long
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
            let still = |f: &Finding| {
                f.id == finding.id && f.names().iter().any(|n| finding.names().contains(n))
            };
            if answers.findings.iter().any(still) {
                continue;
            }
            let adds = self.new_findings(&job);
            let done = Remedied {
                says: remedy.says,
                text,
                adds,
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
                let source = Source {
                    name: plan.name.clone(),
                    text,
                };
                let job = Self::read(source, stock.to_vec());
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

    /// What is found in another job and was not in this one, and what is gone, in sentences; notes aside.
    pub fn found_since(&self, before: &Self) -> (Vec<String>, Vec<String>) {
        let of = |job: &Self| -> Vec<Finding> {
            let all = job.answers().map_or(&[][..], |a| &a.findings);
            all.iter()
                .filter(|f| f.weight != Weight::Note)
                .cloned()
                .collect()
        };
        let (now, then) = (of(self), of(before));
        let only = |these: &[Finding], those: &[Finding]| -> Vec<String> {
            let known = |f: &Finding| those.iter().any(|o| o.id == f.id && o.names() == f.names());
            these
                .iter()
                .filter(|f| !known(f))
                .map(|f| f.says.clone())
                .collect()
        };
        (only(&now, &then), only(&then, &now))
    }
}
