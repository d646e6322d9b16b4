//! What may help against what a fault does: changes of a plan, the least work first.

use super::Change;
use crate::Job;
use finding::joined;
use loom::{PartKind, WireId};
use std::collections::BTreeSet;
use study::{Outcome, Tries};

/// How near its source a fuse is put: within the 7 in of 33 CFR 183.455(b)(1), in round figures.
pub(super) const NEAR: &str = "150 mm";

/// How many sizes thicker are tried for a wire that burns: beyond four the fuse is what is wrong. Our own, no source.
const SIZES: usize = 4;

/// Changes, in words and as they stand in the plan.
pub(super) type Candidate = (String, Vec<Change>);

impl Job {
    /// What may help, the least work first.
    pub(super) fn candidates(&self, tries: &Tries, trials: &[usize]) -> Vec<Candidate> {
        let worst: Vec<&study::Trial> = trials
            .iter()
            .filter_map(|t| tries.worst[*t].as_ref())
            .collect();
        let Some(first) = worst.first() else {
            return Vec::new();
        };
        let is_touch = |t: &study::Trial| {
            let touch = tries.cases[t.case].changes[t.change].touch;
            touch.is_some_and(|t| t.b.is_some())
        };
        let mut found = Vec::new();
        if worst.iter().all(|t| is_touch(t)) {
            found.extend(self.sheaths(tries, trials));
        }
        match (first.outcome, first.harmed) {
            (Outcome::Overheats, Some(wire)) => found.extend(self.for_a_wire(wire)),
            (Outcome::Unasked, _) => found.extend(self.for_a_load(first)),
            _ => {}
        }
        found
    }

    /// Sleeves of their own for as few wires as are in all of these touches: each time the one that is in most of what is
    /// left, of equals the one that the larger fuse feeds.
    fn sheaths(&self, tries: &Tries, trials: &[usize]) -> Option<Candidate> {
        let (loom, answers) = (self.loom()?, self.answers()?);
        let rating = |name: &str| {
            let fuse = loom.wire_named(name).and_then(|w| loom.wire(w).fuse);
            let answer = answers.fuses.iter().find(|f| Some(f.part) == fuse);
            answer.map_or(f64::MAX, |f| f.rating_a)
        };
        let names = |t: &usize| tries.cases[*t].names.iter().map(String::as_str);
        let mut left: Vec<&usize> = trials.iter().collect();
        let mut chosen: Vec<&str> = Vec::new();
        while !left.is_empty() {
            let among: BTreeSet<&str> = left.iter().flat_map(|t| names(t)).collect();
            let count = |name: &str| left.iter().filter(|t| names(t).any(|n| n == name)).count();
            let best = among.into_iter().max_by(|a, b| {
                let by_count = count(a).cmp(&count(b));
                by_count.then(rating(a).total_cmp(&rating(b)))
            })?;
            left.retain(|t| !names(t).any(|n| n == best));
            chosen.push(best);
        }
        let changes = chosen
            .iter()
            .map(|n| set(&format!("wire[{n}].sheathed"), "true"));
        Some((
            format!("a sleeve of its own for {}", joined(&chosen)),
            changes.collect(),
        ))
    }

    fn for_a_wire(&self, wire: WireId) -> Vec<Candidate> {
        let (Some(loom), Some(plan), Some(answers)) = (self.loom(), self.plan(), self.answers())
        else {
            return Vec::new();
        };
        let w = loom.wire(wire);
        let mut found = Vec::new();
        if w.fuse.is_none() {
            found.extend(self.fuse_at_the_source(wire));
        }
        let circuit = w.circuit.map(|c| &plan.circuits[c]);
        if let Some(c) = circuit.filter(|c| c.fuse.rating.is_some()) {
            let says = format!("leave the fuse of “{}” to be chosen", c.name.value);
            found.push((says, vec![take(&format!("circuit[{}].fuse", c.name.value))]));
        }
        if w.set.size.is_some() {
            let says = format!("leave the size of {} to be chosen", w.name);
            found.push((says, vec![take(&format!("wire[{}].size", w.name))]));
        }
        let now = &self.stock().conductors[answers.wires[wire.0 as usize].conductor];
        let limits = study::Limits::default();
        let thicker = self.stock().conductors.iter().filter(|c| {
            c.family == now.family
                && c.insulation == now.insulation
                && c.wall == now.wall
                && c.area > now.area
                && limits.is_usual(c.size)
        });
        for c in thicker.take(SIZES) {
            let says = format!("{} for {}", c.size, w.name);
            let value = format!("\"{}\"", c.size);
            found.push((says, vec![set(&format!("wire[{}].size", w.name), &value)]));
        }
        found
    }

    /// For a wire to a box that no fuse protects: one at the source, near it.
    fn fuse_at_the_source(&self, wire: WireId) -> Vec<Candidate> {
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
                    format!("a fuse at the source of “{}”", b.name.value),
                    vec![take(&path)],
                ),
                (
                    format!("the fuse of “{}” within {NEAR} of its source", b.name.value),
                    vec![set(&path, &format!("{{ within = \"{NEAR}\" }}"))],
                ),
            ]
        });
        each.collect()
    }

    fn for_a_load(&self, trial: &study::Trial) -> Vec<Candidate> {
        let (Some(loom), Some(plan)) = (self.loom(), self.plan()) else {
            return Vec::new();
        };
        let harmful = |p: &&loom::PartId| study::is_hazard(loom, **p);
        let mut worst = trial.unasked.iter().filter(harmful);
        let Some(circuit) = worst.find_map(|p| loom.part(*p).circuit) else {
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
                vec![change],
            ));
        }
        if c.isolator.is_none() {
            // Near the relay it makes no longer way; near the switch it is at hand.
            let relay = c.relay.as_ref().map(|r| &r.place.value);
            let switch = c.switch.as_ref().map(|s| &s.place.value);
            for place in relay.into_iter().chain(switch) {
                let path = format!("circuit[{name}].isolator");
                let change = set(&path, &format!("{{ place = \"{place}\" }}"));
                found.push((format!("an isolator for “{name}” at {place}"), vec![change]));
            }
        }
        found
    }
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
