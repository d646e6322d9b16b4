//! `loom`: from what is wanted to every part, pin, wire, joint, route, length and bundle. Takes a
//! [`plan::Plan`] and a [`stock::Stock`], gives a [`Loom`] or the findings that stop it.
//!
//! Absent from this room: whether any of it is good, any wire size that the installer did not set,
//! currents and heat.

mod assumed;
mod build;
mod colour;
mod parts;
mod places;
mod wires;

pub use assumed::{Assumed, Assumption};
pub use build::build;
pub use colour::{Colour, Palette};
pub use parts::{
    BoxPart, CutoutPart, EarthPart, FeedPart, FusePart, LoadPart, Part, PartId, PartKind, Pin,
    PinId, RelayPart, SignalPart, SwitchPart,
};
pub use places::{LoomPanel, LoomPlace, LoomStretch, PlaceId, StretchId};
pub use wires::{Mate, Role, Wire, WireId, WireSet};

use plan::Supply;

/// Every part, pin, wire and joint, laid along the stretches.
#[derive(Clone, Debug)]
pub struct Loom {
    /// The supply, as planned.
    pub supply: Supply,
    /// Places with their heat.
    pub places: Vec<LoomPlace>,
    /// Stretches, each with the bundle of wires in it.
    pub stretches: Vec<LoomStretch>,
    /// Parts, in the order in which current meets them.
    pub parts: Vec<Part>,
    /// Pins of the parts.
    pub pins: Vec<Pin>,
    /// Wires.
    pub wires: Vec<Wire>,
    /// Pins that are plugged into one another.
    pub mates: Vec<Mate>,
    /// Circuits, in the plan's order.
    pub circuits: Vec<LoomCircuit>,
    /// Everything assumed on the way.
    pub assumptions: Vec<Assumption>,
    /// What the colours of its wires mean.
    pub palette: Palette,
}

/// A circuit's parts.
#[derive(Clone, Debug)]
pub struct LoomCircuit {
    /// Its name.
    pub name: String,
    /// Its number, stem of its names.
    pub number: u32,
    /// Its fuse; none when the installer says so.
    pub fuse: Option<PartId>,
    /// The relay that switches its loads.
    pub relay: Option<PartId>,
    /// Relays that hold a condition, each with the signal that works it.
    pub conditions: Vec<PartId>,
    /// Its switch.
    pub switch: Option<PartId>,
    /// Its battery protection.
    pub cutout: Option<PartId>,
    /// The signals that must be there for it to be on.
    pub only: Vec<PartId>,
    /// The signals that keep it off.
    pub unless: Vec<PartId>,
    /// The signal on the auto position of a three-position switch.
    pub auto: Option<PartId>,
    /// Whether it is dead without the ignition.
    pub ignition: bool,
    /// The same with its switch on auto.
    pub ignition_on_auto: bool,
    /// Its loads.
    pub loads: Vec<PartId>,
    /// Allowed drop, as a fraction.
    pub drop: f64,
}

impl Loom {
    /// A part.
    pub fn part(&self, id: PartId) -> &Part {
        &self.parts[id.0 as usize]
    }

    /// A pin.
    pub fn pin(&self, id: PinId) -> &Pin {
        &self.pins[id.0 as usize]
    }

    /// A wire.
    pub fn wire(&self, id: WireId) -> &Wire {
        &self.wires[id.0 as usize]
    }

    /// A place.
    pub fn place(&self, id: PlaceId) -> &LoomPlace {
        &self.places[id.0 as usize]
    }

    /// A stretch.
    pub fn stretch(&self, id: StretchId) -> &LoomStretch {
        &self.stretches[id.0 as usize]
    }

    /// The part that a pin belongs to.
    pub fn part_of(&self, pin: PinId) -> &Part {
        self.part(self.pin(pin).part)
    }

    /// A pin as people write it: "K1:86".
    pub fn pin_name(&self, pin: PinId) -> String {
        let p = self.pin(pin);
        format!("{}:{}", self.part(p.part).name, p.terminal)
    }

    /// The pin of a part with this terminal mark.
    pub fn terminal(&self, part: PartId, terminal: &str) -> Option<PinId> {
        self.part(part)
            .pins
            .iter()
            .copied()
            .find(|p| self.pin(*p).terminal == terminal)
    }

    /// The pin that feeds a pin: through its own part, its plug, or the wire that ends there. Loads and
    /// coils are passed from their supply side to their earth side.
    pub fn before(&self, pin: PinId) -> Option<PinId> {
        let part = self.part_of(pin);
        let within =
            |from: usize, to: usize| (part.pins.get(to) == Some(&pin)).then(|| part.pins[from]);
        let inside = match &part.kind {
            PartKind::Fuse(_) | PartKind::Load(_) => within(0, 1),
            PartKind::Relay(_) => within(0, 1).or_else(|| within(2, 3)),
            PartKind::Switch(s) if s.positions == 3 => within(1, 2),
            PartKind::Switch(_) | PartKind::Cutout(_) => within(0, 1),
            _ => None,
        };
        let plugged = || self.mates.iter().find(|m| m.far == pin).map(|m| m.live);
        let back = || self.mates.iter().find(|m| m.live == pin).map(|m| m.far);
        let wired = || self.wires.iter().find(|w| w.to == pin).map(|w| w.from);
        // On its way in, current enters a plug at the live half; on its way back at the far half.
        inside.or_else(wired).or_else(plugged).or_else(back)
    }

    /// All parts with their ids.
    pub fn each_part(&self) -> impl Iterator<Item = (PartId, &Part)> {
        self.parts
            .iter()
            .enumerate()
            .map(|(i, p)| (PartId(i as u32), p))
    }

    /// All wires with their ids.
    pub fn each_wire(&self) -> impl Iterator<Item = (WireId, &Wire)> {
        self.wires
            .iter()
            .enumerate()
            .map(|(i, w)| (WireId(i as u32), w))
    }

    /// The part with this name.
    pub fn part_named(&self, name: &str) -> Option<PartId> {
        self.each_part()
            .find(|(_, p)| p.name == name)
            .map(|(id, _)| id)
    }

    /// The wire with this name.
    pub fn wire_named(&self, name: &str) -> Option<WireId> {
        self.each_wire()
            .find(|(_, w)| w.name == name)
            .map(|(id, _)| id)
    }
}
