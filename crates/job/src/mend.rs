//! Mends for what burns or runs unasked, tried: the plan is changed as a person would change it, walked through every
//! room again, and the same faults are tried once more.

use crate::{Job, Source};
use finding::{Finding, Weight};
use loom::{Loom, PartKind, WireId};
use plan::Editor;
use quantity::WireSize;
use std::collections::BTreeMap;
use study::{FaultFinding, Habits, Outcome, Tries};

/// One thing to change in a plan.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub struct Change {
    /// Where: "circuit[rack lamps].fuse".
    pub path: String,
    /// What to set it to, as TOML; none to take it out.
    pub value: Option<String>,
}

/// A mend, and what came of it.
#[derive(Clone, Debug)]
pub struct Mend {
    /// What to do, in words.
    pub says: String,
    /// What it changes in the plan.
    pub change: Change,
    /// Whether the faults then end otherwise.
    pub cures: bool,
    /// What `check` finds then that it did not before, in sentences; notes aside.
    pub adds: Vec<String>,
}

impl Mend {
    /// Whether it cures and brings no other trouble.
    fn is_clean(&self) -> bool {
        self.cures && self.adds.is_empty()
    }
}

/// What was found by trying faults, with the mends that were tried.
#[derive(Clone, Debug)]
pub struct Mended {
    /// The finding; its mend tells what was tried and what it does.
    pub finding: Finding,
    /// The faults: indices into the cases.
    pub trials: Vec<usize>,
    /// Mends in the order tried; the last cures, if any does.
    pub mends: Vec<Mend>,
}

/// Jobs with one change each: many findings ask for the same one.
type Walked = BTreeMap<Change, Option<Job>>;

/// How many sizes thicker are tried for a wire that burns.
const SIZES: usize = 4;

impl Job {
    /// What was found by trying faults, each stop with mends tried until one cures it.
    /// `told` hears how many findings are done, of how many.
    pub fn mended(&self, tries: &Tries, told: &dyn Fn(usize, usize)) -> Vec<Mended> {
        let Some(loom) = self.loom() else {
            return Vec::new();
        };
        let found = study::told(loom, tries);
        let all = found.len();
        let mut walked = Walked::new();
        let each = found.into_iter().enumerate();
        let mended = each.map(|(i, found)| {
            let mended = self.mend(tries, found, &mut walked);
            told(i + 1, all);
            mended
        });
        mended.collect()
    }

    fn mend(&self, tries: &Tries, found: FaultFinding, walked: &mut Walked) -> Mended {
        let FaultFinding {
            mut finding,
            trials,
        } = found;
        let mut mends = Vec::new();
        if finding.weight == Weight::Stop {
            for (says, change) in self.candidates(tries, &trials) {
                let job = walked
                    .entry(change.clone())
                    .or_insert_with(|| self.changed(&change));
                let cures = job
                    .as_ref()
                    .is_some_and(|job| cures(job, tries, &trials, &change));
                let adds = job
                    .as_ref()
                    .map_or_else(Vec::new, |job| self.new_findings(job));
                let done = cures && adds.is_empty();
                mends.push(Mend {
                    says,
                    change,
                    cures,
                    adds,
                });
                if done {
                    break;
                }
            }
            // One that brings no other trouble comes last already; else the first that cures does.
            if !mends.last().is_some_and(Mend::is_clean)
                && let Some(first) = mends.iter().position(|m| m.cures)
            {
                let best = mends.remove(first);
                mends.push(best);
            }
            finding.mend = told(&mends, &finding.mend);
        }
        Mended {
            finding,
            trials,
            mends,
        }
    }

    /// What stops or is to be mended in a changed job and is not in this one.
    fn new_findings(&self, job: &Self) -> Vec<String> {
        let (Some(before), Some(after)) = (self.answers(), job.answers()) else {
            return Vec::new();
        };
        let known = |f: &Finding| {
            before
                .findings
                .iter()
                .any(|b| b.id == f.id && b.names() == f.names())
        };
        let new = after
            .findings
            .iter()
            .filter(|f| f.weight != Weight::Note && !known(f));
        new.map(|f| f.says.clone()).collect()
    }

    /// This job with its plan changed; none where the plan can't take the change.
    fn changed(&self, change: &Change) -> Option<Self> {
        let [plan, stock @ ..] = self.sources() else {
            return None;
        };
        let mut editor = Editor::new(&plan.text).ok()?;
        match &change.value {
            Some(value) => editor.set(&change.path, value).ok()?,
            None => editor.remove(&change.path).ok()?,
        }
        let text = Source {
            name: plan.name.clone(),
            text: editor.to_string(),
        };
        let job = Self::read(text, stock.to_vec());
        job.errors().is_empty().then_some(job)
    }

    /// What may help, the least work first.
    fn candidates(&self, tries: &Tries, trials: &[usize]) -> Vec<(String, Change)> {
        let worst: Vec<&study::Trial> = trials
            .iter()
            .filter_map(|t| tries.worst[*t].as_ref())
            .collect();
        let Some(first) = worst.first() else {
            return Vec::new();
        };
        let names = &tries.cases[first.case].names;
        let mut found = Vec::new();
        if names.len() == 2 {
            found.extend(self.sheaths(names));
        }
        match (first.outcome, first.harmed) {
            (Outcome::Overheats, Some(wire)) => found.extend(self.for_a_wire(wire)),
            (Outcome::Unasked, _) => found.extend(self.for_a_load(first)),
            _ => {}
        }
        found
    }

    /// A sleeve of its own for the one of two wires that the larger fuse feeds.
    fn sheaths(&self, names: &[String]) -> Option<(String, Change)> {
        let (loom, answers) = (self.loom()?, self.answers()?);
        let rating = |name: &String| {
            let fuse = loom.wire(loom.wire_named(name)?).fuse?;
            answers
                .fuses
                .iter()
                .find(|f| f.part == fuse)
                .map(|f| f.rating_a)
        };
        let name = names.iter().max_by(|a, b| {
            let (a, b) = (rating(a).unwrap_or(f64::MAX), rating(b).unwrap_or(f64::MAX));
            a.total_cmp(&b)
        })?;
        let change = set(&format!("wire[{name}].sheathed"), "true");
        Some((
            format!("a sleeve of its own for {name} (sheathed = true)"),
            change,
        ))
    }

    fn for_a_wire(&self, wire: WireId) -> Vec<(String, Change)> {
        let (Some(loom), Some(plan), Some(answers)) = (self.loom(), self.plan(), self.answers())
        else {
            return Vec::new();
        };
        let w = loom.wire(wire);
        let mut found = Vec::new();
        if w.fuse.is_none() {
            found.extend(self.fuse_at_the_source(wire));
        }
        if w.set.size.is_some() {
            let says = format!("leave the size of {} to be chosen", w.name);
            found.push((says, take(&format!("wire[{}].size", w.name))));
        }
        let circuit = w.circuit.map(|c| &plan.circuits[c]);
        if let Some(c) = circuit.filter(|c| c.fuse.rating.is_some()) {
            let says = format!("leave the fuse of “{}” to be chosen", c.name.value);
            found.push((says, take(&format!("circuit[{}].fuse", c.name.value))));
        }
        let now = &self.stock().conductors[answers.wires[wire.0 as usize].conductor];
        let thicker = self.stock().conductors.iter().filter(|c| {
            c.family == now.family
                && c.insulation == now.insulation
                && c.wall == now.wall
                && c.area > now.area
                && usual(c.size)
        });
        for c in thicker.take(SIZES) {
            let says = format!("{} for {}", c.size, w.name);
            let value = format!("\"{}\"", c.size);
            found.push((says, set(&format!("wire[{}].size", w.name), &value)));
        }
        found
    }

    /// For a wire to a box that no fuse protects: one at the source, near it.
    fn fuse_at_the_source(&self, wire: WireId) -> Vec<(String, Change)> {
        let (Some(loom), Some(plan)) = (self.loom(), self.plan()) else {
            return Vec::new();
        };
        let fed = |b: &&plan::FuseBox| {
            let part = loom
                .each_part()
                .find(|(_, p)| matches!(p.kind, PartKind::Box(_)) && p.label == b.name.value);
            let to = loom.pin(loom.wire(wire).to).part;
            let main = part.and_then(|(_, p)| match &p.kind {
                PartKind::Box(b) => b.main,
                _ => None,
            });
            part.is_some_and(|(id, _)| id == to) || main == Some(to)
        };
        let boxes = plan.boxes.iter().filter(fed);
        let each = boxes.flat_map(|b| {
            let path = format!("box[{}].fuse", b.name.value);
            [
                (
                    format!(
                        "a fuse at the source of “{}”: leave `fuse` out of it",
                        b.name.value
                    ),
                    take(&path),
                ),
                (
                    format!("the fuse of “{}” within 150 mm of its source", b.name.value),
                    set(&path, "{ within = \"150 mm\" }"),
                ),
            ]
        });
        each.collect()
    }

    fn for_a_load(&self, trial: &study::Trial) -> Vec<(String, Change)> {
        let (Some(loom), Some(plan)) = (self.loom(), self.plan()) else {
            return Vec::new();
        };
        let harmful =
            |p: &&loom::PartId| matches!(&loom.part(**p).kind, PartKind::Load(l) if l.hazard);
        let Some(circuit) = trial
            .unasked
            .iter()
            .find(harmful)
            .and_then(|p| loom.part(*p).circuit)
        else {
            return Vec::new();
        };
        let c = &plan.circuits[circuit];
        let name = &c.name.value;
        let mut found = Vec::new();
        let in_earth = |s: &plan::SwitchWish| {
            s.breaks
                .is_some_and(|b| b.value == plan::SwitchBreaks::Earth)
        };
        if c.switch.as_ref().is_some_and(in_earth) {
            let change = set(&format!("circuit[{name}].switch.breaks"), "\"supply\"");
            found.push((
                format!("the switch of “{name}” in its coil's supply"),
                change,
            ));
        }
        if c.isolator.is_none() {
            // Near the relay it makes no longer way; near the switch it is at hand.
            let relay = c.relay.as_ref().map(|r| &r.place.value);
            let switch = c.switch.as_ref().map(|s| &s.place.value);
            for place in relay.into_iter().chain(switch) {
                let path = format!("circuit[{name}].isolator");
                let change = set(&path, &format!("{{ place = \"{place}\" }}"));
                found.push((format!("an isolator for “{name}” at {place}"), change));
            }
        }
        found
    }
}

/// Whether none of these faults ends so badly once the plan is changed. One that can't happen any more is cured.
fn cures(job: &Job, tries: &Tries, trials: &[usize], change: &Change) -> bool {
    let (Some(plan), Some(loom), Some(answers)) = (job.plan(), job.loom(), job.answers()) else {
        return false;
    };
    // A fuse more at the source gives the wires before its box other names.
    let renamed = change
        .of_box()
        .map_or_else(Vec::new, |name| feeders(loom, name));
    let wanted = |case: &study::FaultCase| {
        let alike = |t: &usize| tries.cases[*t].kind == case.kind;
        let same = |t: &usize| tries.cases[*t].at == case.at;
        match renamed.is_empty() {
            true => trials.iter().any(|t| alike(t) && same(t)),
            false => trials.iter().any(alike) && case.names.iter().all(|n| renamed.contains(n)),
        }
    };
    let habits = Habits::of(plan);
    let again = study::tries_of((loom, job.stock()), &habits, answers, &wanted, &|_, _| {});
    let stops = |f: &FaultFinding| f.finding.weight == Weight::Stop;
    !study::told(loom, &again).iter().any(stops)
}

impl Change {
    /// The box that it is a change of.
    fn of_box(&self) -> Option<&str> {
        let name = self.path.strip_prefix("box[")?;
        name.split_once(']').map(|(name, _)| name)
    }
}

/// The wires from the source to a box, by name.
fn feeders(loom: &Loom, name: &str) -> Vec<String> {
    let found = loom
        .parts
        .iter()
        .find(|p| matches!(p.kind, PartKind::Box(_)) && p.label == name);
    let mut pin = found.map(|p| p.pins[0]);
    let mut names = Vec::new();
    // A step a pin at most: sources stand nowhere behind themselves.
    for _ in 0..=loom.pins.len() {
        let Some(to) = pin else { break };
        names.extend(
            loom.wires
                .iter()
                .filter(|w| w.to == to)
                .map(|w| w.name.clone()),
        );
        pin = loom.before(to);
    }
    names
}

/// What to do, from what was tried.
fn told(mends: &[Mend], else_: &str) -> String {
    let in_plan = |m: &Mend| match &m.change.value {
        Some(value) => format!("{} = {value}", m.change.path),
        None => format!("{} taken out", m.change.path),
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
            format!(
                "{} (in the plan: {}). Tried: it cures this{but}{failed}",
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

/// Whether wire of this size is usually sold.
fn usual(size: WireSize) -> bool {
    let metric = &study::Limits::default().metric_mm2;
    size.metric_mm2()
        .is_none_or(|mm2| metric.iter().any(|m| (m - mm2).abs() < 1e-6))
}

fn set(path: &str, value: &str) -> Change {
    Change {
        path: path.to_owned(),
        value: Some(value.to_owned()),
    }
}

fn take(path: &str) -> Change {
    Change {
        path: path.to_owned(),
        value: None,
    }
}
