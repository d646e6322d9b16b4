//! The walk from plan to loom, one step a file: places and ways, supply side, circuits, returns,
//! bundles, overrides.

mod circuit;
mod coil;
mod cutout;
mod ignition;
mod isolator;
mod overrides;
mod run;
mod supply;
mod tree;
mod ways;
mod wishes;

use crate::{Assumed, Assumption, Loom, LoomCircuit, Part, PartId, PartKind, Pin, PinId, PlaceId};
use finding::{Finding, Span};
use plan::Plan;
use std::collections::BTreeMap;
use stock::Stock;
use ways::Ways;

/// Builds the loom. It is there only when nothing stops it.
pub fn build(plan: &Plan, stock: &Stock) -> (Option<Loom>, Vec<Finding>) {
    let mut b = Builder::new(plan, stock);
    b.check_wishes();
    b.add_places();
    b.add_supply();
    for index in 0..plan.boxes.len() {
        b.add_box(index);
    }
    for index in 0..plan.circuits.len() {
        b.add_circuit(index);
    }
    b.add_returns();
    b.note_ignition();
    b.apply_overrides();
    b.lay_bundles();
    crate::colour::paint(&mut b.loom, plan.job.colours);
    b.note_habits();
    b.errors.sort_by_key(|e| e.span().unwrap_or_default());
    b.errors.dedup();
    let stopped = b.errors.iter().any(|e| e.weight == finding::Weight::Stop);
    (Some(b.loom).filter(|_| !stopped), b.errors)
}

/// The loom under construction.
struct Builder<'a> {
    plan: &'a Plan,
    stock: &'a Stock,
    assumed: Assumed,
    loom: Loom,
    ways: Ways,
    errors: Vec<Finding>,
    /// Next number of each letter within each circuit.
    counters: BTreeMap<(u32, &'static str), u32>,
    /// Earth points made so far, by plan name or place name.
    earths: BTreeMap<String, PartId>,
    /// Feeds by plan name.
    feeds: BTreeMap<String, PartId>,
    /// Signals by plan name.
    signals: BTreeMap<String, PartId>,
    /// Boxes by plan name, with the ways still free.
    boxes: BTreeMap<String, (PartId, Vec<u32>)>,
    /// Connectors at places that come out.
    connectors: BTreeMap<PlaceId, PartId>,
}

impl<'a> Builder<'a> {
    fn new(plan: &'a Plan, stock: &'a Stock) -> Self {
        Self {
            plan,
            stock,
            assumed: Assumed::default(),
            ways: Ways::new(plan),
            loom: Loom {
                supply: plan.supply.clone(),
                places: Vec::new(),
                stretches: Vec::new(),
                parts: Vec::new(),
                pins: Vec::new(),
                wires: Vec::new(),
                mates: Vec::new(),
                circuits: Vec::<LoomCircuit>::new(),
                assumptions: Vec::<Assumption>::new(),
                palette: crate::Palette::default(),
            },
            errors: Vec::new(),
            counters: BTreeMap::new(),
            earths: BTreeMap::new(),
            feeds: BTreeMap::new(),
            signals: BTreeMap::new(),
            boxes: BTreeMap::new(),
            connectors: BTreeMap::new(),
        }
    }

    /// The place of a name that the plan has checked.
    fn place(&self, name: &str) -> PlaceId {
        let at = self.plan.places.iter().position(|p| p.name.value == name);
        PlaceId(at.unwrap_or(0) as u32)
    }

    /// The next name of a letter on the supply side or within a circuit: "W1.3", "F0.2".
    fn next_name(&mut self, circuit: u32, letter: &'static str) -> String {
        let n = self.counters.entry((circuit, letter)).or_insert(0);
        *n += 1;
        format!("{letter}{circuit}.{n}")
    }

    fn add_part(
        &mut self,
        name: String,
        label: String,
        kind: PartKind,
        at: (PlaceId, Option<usize>, Span),
    ) -> PartId {
        let id = PartId(self.loom.parts.len() as u32);
        let (place, circuit, span) = at;
        self.loom.parts.push(Part {
            name,
            label,
            kind,
            place,
            circuit,
            pins: Vec::new(),
            span,
        });
        id
    }

    fn add_pin(&mut self, part: PartId, terminal: &str) -> PinId {
        let id = PinId(self.loom.pins.len() as u32);
        self.loom.pins.push(Pin {
            part,
            terminal: terminal.to_owned(),
        });
        self.loom.parts[part.0 as usize].pins.push(id);
        id
    }

    /// The pin of a part with this mark, made if the part has none yet.
    fn pin(&mut self, part: PartId, terminal: &str) -> PinId {
        match self.loom.terminal(part, terminal) {
            Some(pin) => pin,
            None => self.add_pin(part, terminal),
        }
    }

    fn error(&mut self, id: &'static str, span: Span, says: String, mend: &str) {
        self.errors.push(Finding::error(id, span, says, mend));
    }
}

#[cfg(test)]
mod tests;
