//! Where in the plan a finding is answered: the entries that it has to do with, and the questions there that weigh most on it.

use crate::Job;
use finding::Finding;
use loom::{Part, PartKind, Wire};
use plan::entry;
use plan::form::ask_at;

/// A question of the plan that a finding hangs on.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Question {
    /// The entry that it is asked of: "circuit[rack lamps]".
    pub entry: String,
    /// Where its answer stands or would stand; none where the whole entry is to be looked at.
    pub path: Option<String>,
    /// What the entry is called.
    pub of: String,
    /// The question in words; empty for the whole entry.
    pub asks: &'static str,
}

/// So many are told: more of them help nobody.
const MOST: usize = 4;

/// By kind of finding the keys that answer it, the likeliest first. Of a kind that is not here the entries are told.
const KEYS: [(&str, &[&str]); 31] = [
    ("alternator-short", &["alternator"]),
    ("assumed-heat", &["heat"]),
    ("bare-tab", &["relay.bare", "switch.bare"]),
    ("contact-overloaded", &["relay.kind", "relay.place"]),
    ("crowded-stud", &["earth", "to"]),
    ("cutout-overloaded", &["cutout.rating"]),
    ("cutout-wrong", &["cutout.opens", "cutout.closes"]),
    ("day-empties", &["battery.capacity"]),
    ("dead-load", &["drop"]),
    ("drop", &["drop", "earth"]),
    ("earth-colour", &["colour"]),
    ("feed-overloaded", &["gives", "fused"]),
    ("fuse-above-wire", &["fuse", "size"]),
    ("fuse-breaking", &["fuse.kind", "kind"]),
    ("fuse-far", &["fuse.within", "fuse.sheathed"]),
    ("fuse-loaded", &["fuse"]),
    ("fuse-start", &["fuse.kind", "kind"]),
    ("guessed-length", &["length", "guessed"]),
    ("idling-short", &["alternator.idling"]),
    ("never-on", &["only", "unless", "trigger", "live"]),
    ("no-fit", &["sleeve"]),
    ("no-grommet", &["through.grommet"]),
    ("poor-earth", &["surface"]),
    ("relay-drops", &["unless", "relay.place"]),
    ("relay-fails", &["relay.place"]),
    ("relay-hot", &["relay.place", "relay.kind"]),
    ("spare-way", &["spare"]),
    ("unfused-feeder", &["fuse"]),
    ("unfused-in-cab", &["fuse"]),
    ("unknown-fuse", &["fused"]),
    ("unshrouded-live", &["cover", "battery.cover"]),
];

impl Job {
    /// The questions of the plan that a finding of this job hangs on.
    pub fn questions(&self, finding: &Finding) -> Vec<Question> {
        let keys = KEYS.iter().find(|(id, _)| *id == finding.id);
        let keys = keys.map_or(&[][..], |(_, keys)| *keys);
        let mut found = Vec::new();
        for (path, of) in self.entries_of(finding) {
            let known = keys.iter().filter_map(|key| {
                let full = format!("{path}.{key}");
                let ask = ask_at(&full)?;
                Some((full, ask.question))
            });
            let mut known = known.peekable();
            if known.peek().is_none() {
                found.push(Question {
                    entry: path,
                    path: None,
                    of,
                    asks: "",
                });
                continue;
            }
            found.extend(known.map(|(full, asks)| Question {
                entry: path.clone(),
                path: Some(full),
                of: of.clone(),
                asks,
            }));
        }
        found.truncate(MOST);
        found
    }

    /// The entries of the plan that a finding has to do with: path and what it is called.
    fn entries_of(&self, finding: &Finding) -> Vec<(String, String)> {
        let (Some(plan), Some(loom)) = (self.plan(), self.loom()) else {
            return Vec::new();
        };
        let mut found: Vec<(String, String)> = Vec::new();
        let mut add = |e: Option<(String, String)>| {
            if let Some(e) = e.filter(|e| !found.contains(e)) {
                found.push(e);
            }
        };
        if matches!(finding.id, "guessed-length" | "no-grommet") {
            for (i, s) in plan.stretches.iter().enumerate() {
                let bare = s.through.as_ref().is_some_and(|t| !t.grommet);
                if (finding.id == "guessed-length" && s.guessed)
                    || (finding.id == "no-grommet" && bare)
                {
                    let ends = [&s.between[0].value, &s.between[1].value];
                    add(Some((
                        entry("stretch", &(i + 1).to_string()),
                        format!("{} to {}", ends[0], ends[1]),
                    )));
                }
            }
            return found;
        }
        for name in finding.names() {
            // A pin is told by its part's name: "F1:2".
            let name = name.split_once(':').map_or(name.as_str(), |(part, _)| part);
            if plan.wires.iter().any(|w| w.name.value == name) {
                add(Some((entry("wire", name), name.to_owned())));
            }
            if let Some(id) = loom.wire_named(name) {
                add(self.entry_of_wire(loom.wire(id)));
            }
            if let Some(part) = loom.parts.iter().find(|p| p.name == name) {
                add(self.entry_of_part(part));
            }
            if plan.circuits.iter().any(|c| c.name.value == name) {
                add(Some((entry("circuit", name), name.to_owned())));
            }
            if plan.places.iter().any(|p| p.name.value == name) {
                add(Some((entry("place", name), name.to_owned())));
            }
        }
        found
    }

    fn entry_of_wire(&self, wire: &Wire) -> Option<(String, String)> {
        let circuit = wire.circuit.and_then(|c| self.plan()?.circuits.get(c));
        if let Some(c) = circuit {
            return Some((entry("circuit", &c.name.value), c.name.value.clone()));
        }
        let loom = self.loom()?;
        let ends = [wire.from, wire.to].map(|pin| loom.part(loom.pins[pin.0 as usize].part));
        let of_box = ends.iter().find(|p| matches!(p.kind, PartKind::Box(_)));
        self.entry_of_part(of_box.unwrap_or(&ends[0]))
    }

    fn entry_of_part(&self, part: &Part) -> Option<(String, String)> {
        let plan = self.plan()?;
        if let Some(c) = part.circuit.and_then(|c| plan.circuits.get(c)) {
            return Some((entry("circuit", &c.name.value), c.name.value.clone()));
        }
        let named = |table: &str| Some((entry(table, &part.label), part.label.clone()));
        match &part.kind {
            PartKind::Battery { .. } => {
                Some(("supply".to_owned(), "battery and engine".to_owned()))
            }
            PartKind::Feed(_) => {
                named("feed").filter(|_| plan.feeds.iter().any(|f| f.name.value == part.label))
            }
            PartKind::Box(_) => named("box"),
            PartKind::Signal(_) => named("signal"),
            PartKind::Earth(_) => match plan.earths.iter().any(|e| e.name.value == part.label) {
                true => named("earth"),
                false => named("place")
                    .filter(|_| plan.places.iter().any(|p| p.name.value == part.label)),
            },
            // The fuse where the feeder of a box begins.
            PartKind::Fuse(_) => {
                let of = plan
                    .boxes
                    .iter()
                    .find(|b| part.label.contains(b.name.value.as_str()))
                    .or(match plan.boxes.as_slice() {
                        [b] => Some(b),
                        _ => None,
                    })?;
                Some((entry("box", &of.name.value), of.name.value.clone()))
            }
            _ => None,
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::Source;

    fn read(text: &str) -> Job {
        let name = "farm.toml".to_owned();
        Job::read(
            Source {
                name,
                text: text.to_owned(),
            },
            Vec::new(),
        )
    }

    #[test]
    fn every_key_is_asked_somewhere_and_every_kind_is_found_by_somebody() {
        let mut ways = plan::ask::TABLES.iter().map(|t| match t.key {
            "job" | "supply" => t.key.to_owned(),
            key => entry(key, "1"),
        });
        let ways: Vec<String> = ways.by_ref().collect();
        for (id, keys) in KEYS {
            assert!(study::LIST.iter().any(|about| about.id == id), "{id}");
            for key in keys {
                let asked = ways.iter().any(|w| ask_at(&format!("{w}.{key}")).is_some());
                assert!(asked, "{id}: {key}");
            }
        }
    }

    #[test]
    fn a_finding_leads_to_where_it_is_answered() {
        let farm = include_str!("../../../../examples/farm.toml");
        let text = farm.replace("drop   = \"7 %\"\n", "drop   = \"0.5 %\"\n");
        assert_ne!(text, farm);
        let job = read(&text);
        let answers = job.answers().unwrap();
        let drop = answers.findings.iter().find(|f| f.id == "drop").unwrap();
        let asked = job.questions(drop);
        assert_eq!(
            asked[0].path.as_deref(),
            Some("circuit[rack lamps].drop"),
            "{asked:?}"
        );
        assert!(asked[0].asks.contains("voltage"));
        // None is told of what can't be asked: each finding of the plan leads to an entry that is there.
        for f in &answers.findings {
            for q in job.questions(f) {
                assert!(
                    q.entry == "supply" || text.contains(&q.of) || q.of.contains(" to "),
                    "{q:?}"
                );
            }
        }
    }
}
