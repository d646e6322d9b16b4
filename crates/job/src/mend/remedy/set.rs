//! Mends of what a person set: the size or colour of a wire, a fuse, or where it sits, left to be chosen.

use super::Gathered;
use crate::mend::candidates::NEAR;
use loom::{Part, PartKind};
use plan::{MainFuse, entry};

/// Findings about colours: nothing but a colour mends them.
fn is_colour(id: &str) -> bool {
    matches!(id, "earth-colour" | "same-colour")
}

impl Gathered<'_> {
    pub(super) fn for_what_is_set(&mut self, name: &str, part: Option<&Part>) {
        self.for_a_wire(name);
        if !is_colour(self.id) && self.id != "no-terminal" {
            self.for_a_fuse(name, part);
        }
    }

    fn for_a_wire(&mut self, name: &str) {
        let wires = self.job.plan().map_or(&[][..], |p| &p.wires);
        let Some(wish) = wires.iter().find(|w| w.name.value == name) else {
            return;
        };
        let said = match is_colour(self.id) {
            true => vec![("colour", wish.colour.is_some())],
            false => vec![
                ("size", wish.size.is_some()),
                ("insulation", wish.insulation.is_some()),
            ],
        };
        for (key, said) in said {
            if said {
                let says = format!("the {key} of {name} left to be chosen");
                self.take(says, format!("{}.{key}", entry("wire", name)));
            }
        }
    }

    /// The fuse before a wire, or the part itself, as the plan has it: of a circuit, or where the feeder of a box begins.
    fn for_a_fuse(&mut self, name: &str, part: Option<&Part>) {
        let (Some(plan), Some(loom)) = (self.job.plan(), self.job.loom()) else {
            return;
        };
        let wire = loom.wire_named(name).map(|id| loom.wire(id));
        let fuse = wire.and_then(|w| w.fuse).map(|f| loom.part(f)).or(part);
        let fuse = fuse.filter(|p| matches!(p.kind, PartKind::Fuse(_)) || p.circuit.is_some());
        let of_fuse = fuse.and_then(|p| self.job.circuit_of(p)).map(|(_, c)| c);
        let of_wire = wire.and_then(|w| plan.circuits.get(w.circuit?));
        match of_fuse.or(of_wire) {
            Some(c) => {
                let name = &c.name.value;
                self.for_this_fuse(&entry("circuit", name), &c.fuse, name);
            }
            None => {
                for b in &plan.boxes {
                    let name = &b.name.value;
                    self.for_this_fuse(&entry("box", name), &b.fuse, name);
                }
            }
        }
    }

    fn for_this_fuse(&mut self, path: &str, fuse: &MainFuse, of: &str) {
        let unfused = matches!(self.id, "unfused-feeder" | "unfused-in-cab");
        if !fuse.fitted && unfused {
            let says = format!("a fuse where the feeder of “{of}” begins");
            self.take(says, format!("{path}.fuse"));
        }
        if fuse.rating.is_some() && !unfused && self.id.contains("fuse") {
            let long = fuse.kind.is_some() || fuse.within.is_some() || fuse.sheathed;
            let key = if long { "fuse.rating" } else { "fuse" };
            let says = format!("the fuse of “{of}” left to be chosen");
            self.take(says, format!("{path}.{key}"));
        }
        if self.id == "fuse-far" && fuse.within.is_some() {
            let says = format!("the fuse of “{of}” within {NEAR} of where its feeder begins");
            let value = Some(format!("\"{NEAR}\""));
            self.change(says, format!("{path}.fuse.within"), value);
        }
    }
}
