//! Mends of a part that a finding names.

use super::Gathered;
use finding::Finding;
use loom::{Part, PartKind};
use plan::entry;
use plan::form::How;
use quantity::Quantity;

impl Gathered<'_> {
    pub(super) fn for_a_part(&mut self, part: &Part) {
        match (self.id, &part.kind) {
            ("switch-overloaded", PartKind::Switch(_)) => self.for_a_switch(part),
            ("contact-overloaded" | "relay-hot", _) => {
                self.chosen(part, "relay", "kind", |c| {
                    c.relay.as_ref().is_some_and(|r| r.kind.is_some())
                });
            }
            ("cutout-overloaded", _) => {
                self.chosen(part, "cutout", "rating", |c| {
                    c.cutout.as_ref().is_some_and(|o| o.rating.is_some())
                });
            }
            ("unshrouded-live", _) => self.covered(part),
            ("drop", PartKind::Load(_)) => self.more_lost(part),
            ("bare-tab", _) => {
                self.chosen(part, "relay", "bare", |c| {
                    c.relay.as_ref().is_some_and(|r| r.bare)
                });
                self.chosen(part, "switch", "bare", |c| {
                    c.switch.as_ref().is_some_and(|s| s.bare)
                });
            }
            ("poor-earth", PartKind::Earth(_)) => {
                let earths = self.job.plan().map_or(&[][..], |p| &p.earths);
                if earths.iter().any(|e| e.name.value == part.label) {
                    let path = entry("earth", &part.label);
                    let says = format!("“{}” on bare metal of the body itself", part.label);
                    self.take(says, format!("{path}.surface"));
                }
            }
            _ => {}
        }
    }

    fn for_a_switch(&mut self, part: &Part) {
        let Some((path, c)) = self.job.circuit_of(part) else {
            return;
        };
        if c.relay.is_none() {
            let says = format!(
                "a relay for “{}”, which the switch then works",
                c.name.value
            );
            self.switch(says, path, How::Relay);
            return;
        }
        self.chosen(part, "switch", "rating", |c| {
            c.switch.as_ref().is_some_and(|s| s.rating.is_some())
        });
        self.chosen(part, "switch", "kind", |c| {
            c.switch.as_ref().is_some_and(|s| s.kind.is_some())
        });
    }

    /// What a person said of a part of a circuit is left to be chosen.
    fn chosen(&mut self, part: &Part, what: &str, key: &str, said: fn(&plan::Circuit) -> bool) {
        let Some((path, c)) = self.job.circuit_of(part).filter(|(_, c)| said(c)) else {
            return;
        };
        let says = match key {
            "bare" => format!("insulated receptacles on the {what} of “{}”", c.name.value),
            _ => format!("a {what} that is chosen for “{}”", c.name.value),
        };
        self.take(says, format!("{path}.{what}.{key}"));
    }

    /// A circuit may lose what it does lose.
    fn more_lost(&mut self, part: &Part) {
        let (Some((path, c)), Some(answers)) = (self.job.circuit_of(part), self.job.answers())
        else {
            return;
        };
        if c.loads.iter().any(|load| load.drop.is_some()) {
            return;
        }
        let of = |l: &&study::LoadAnswer| {
            let load = self.job.loom().map(|loom| loom.part(l.part));
            load.is_some_and(|p| p.circuit == part.circuit)
        };
        let losses = answers.loads.iter().filter(of).map(|l| l.drop_percent);
        let most = losses.fold(0.0, f64::max);
        // A tenth to spare, so that sizes may be sought again within it.
        let allow = format!("{:.1} %", (most * 10.0).ceil() / 10.0 + 0.1);
        let says = format!("“{}” may lose {allow} on the way", c.name.value);
        self.change(says, format!("{path}.drop"), Some(format!("\"{allow}\"")));
    }

    /// A cover over live metal.
    fn covered(&mut self, part: &Part) {
        let path = match &part.kind {
            PartKind::Battery { .. } => "supply.battery".to_owned(),
            PartKind::Box(_) => entry("box", &part.label),
            PartKind::Feed(_) => entry("feed", &part.label),
            _ => return,
        };
        let says = format!("a cover over {} ({})", part.name, part.label);
        self.take(says, format!("{path}.cover"));
    }

    /// Fuses that break more, for the box or the circuit whose fuses break too little.
    pub(super) fn other_fuses(&mut self, finding: &Finding) {
        let job = self.job;
        let first = finding.names().first().and_then(|n| job.part_named(n));
        let Some(PartKind::Fuse(fuse)) = first.map(|p| &p.kind) else {
            return;
        };
        let circuit = first.and_then(|p| job.circuit_of(p));
        let of_box = fuse
            .way
            .and_then(|(id, _)| Some(job.loom()?.part(id).label.clone()));
        let feeds = job.plan().map_or(&[][..], |p| &p.boxes);
        let (path, of) = match (of_box, circuit, feeds) {
            (Some(name), ..) => (format!("{}.kind", entry("box", &name)), name),
            (None, Some((path, c)), _) => (format!("{path}.fuse.kind"), c.name.value.clone()),
            // The one where the feeder of the only box begins.
            (None, None, [b]) => {
                let name = b.name.value.clone();
                (format!("{}.fuse.kind", entry("box", &name)), name)
            }
            _ => return,
        };
        // One that breaks more, and comes small enough: a fuse of four times the rating protects nothing.
        let part = finding
            .names()
            .first()
            .and_then(|n| job.loom()?.each_part().find(|(_, p)| p.name == *n));
        let answers = job.answers().map_or(&[][..], |a| &a.fuses);
        let Some(now) = part.and_then(|(id, _)| answers.iter().find(|f| f.part == id)) else {
            return;
        };
        let breaks = job.stock().fuses[now.kind].breaking.si();
        let better = |k: &&stock::FuseKind| {
            let least = k.ratings.first().map_or(f64::MAX, |r| r.amps.si());
            k.breaking.si() > breaks && least <= 1.5 * now.rating_a
        };
        let mut kinds: Vec<&stock::FuseKind> = job.stock().fuses.iter().filter(better).collect();
        kinds.sort_by(|a, b| a.breaking.si().total_cmp(&b.breaking.si()));
        for kind in kinds {
            let says = format!("fuses of the kind “{}” for “{of}”", kind.name);
            self.change(says, path.clone(), Some(format!("\"{}\"", kind.name)));
        }
    }
}
