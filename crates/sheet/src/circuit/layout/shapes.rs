//! Which symbol a part has. Takes a part as it stands in a column, gives its shape with what varies in it.

use super::words::Words;
use crate::circuit::path::{Face, Stand};
use crate::circuit::symbol::{Across, Shape, Words as BoxWords};
use loom::{Part, PartKind};
use plan::{LampKind, LoadKind};

impl Words<'_> {
    /// The symbol of a part.
    pub fn shape(&self, stand: &Stand) -> Shape {
        let part = self.loom.part(stand.part);
        match (stand.face, &part.kind) {
            (Face::Cells, _) => Shape::Battery,
            (Face::Fuse, _) => Shape::Fuse,
            (Face::Contact, PartKind::Relay(r)) if r.contact == "87a" => Shape::ChangeOver,
            (Face::Contact, _) => Shape::MakeContact,
            (Face::Coil, _) => Shape::Coil(self.across(part)),
            (Face::Switch, _) => Shape::Switch,
            (Face::Throw, _) => Shape::Throw,
            (Face::Cutout { .. }, _) => Shape::Cutout,
            (Face::Connector { socket_above }, _) => Shape::Connector { socket_above },
            (Face::Load, PartKind::Load(l)) => match l.kind {
                LoadKind::Lamp(LampKind::Led) => Shape::Led,
                LoadKind::Lamp(LampKind::Tungsten) => Shape::Lamp,
                LoadKind::Motor => Shape::Motor,
                LoadKind::Heater => Shape::Heater,
                LoadKind::Socket => Shape::Socket,
                LoadKind::Electronics => Shape::Box(BoxWords::new(self.own_word(part))),
            },
            (Face::Load, _) => Shape::Box(BoxWords::new(&part.label)),
        }
    }

    /// What a load is called apart from its circuit: the word for its box.
    fn own_word<'p>(&self, part: &'p Part) -> &'p str {
        let circuit = part
            .circuit
            .map_or("", |c| self.loom.circuits[c].name.as_str());
        let rest = part.label.strip_prefix(circuit).map_or("", str::trim);
        if rest.is_empty() { &part.label } else { rest }
    }

    /// Whether any relay has something across its coil.
    pub fn takes_surges(&self) -> bool {
        let mut parts = self.loom.parts.iter();
        parts.any(|p| self.across(p) != Across::Nothing)
    }

    fn across(&self, part: &Part) -> Across {
        let PartKind::Relay(relay) = &part.kind else {
            return Across::Nothing;
        };
        let kind = self
            .stock
            .relay(&relay.kind, self.loom.supply.system.volts());
        match kind.map(|k| k.suppression.as_str()) {
            Some("resistor") => Across::Resistor,
            Some("diode") => Across::Diode,
            _ => Across::Nothing,
        }
    }
}
