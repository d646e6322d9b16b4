//! Wires, the joints at their ends, and pins that plug into one another.

use crate::colour::Colour;
use crate::parts::{PartId, PinId};
use crate::places::{PlaceId, StretchId};
use finding::Spanned;
use quantity::{Length, WireSize};

/// Index of a wire in the loom.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct WireId(pub u32);

/// What a wire is for.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Role {
    /// From a source to the fuse that protects what follows: no fuse before it but the vehicle's.
    Lead,
    /// From a main fuse to a box.
    Feeder,
    /// From a fuse to a relay or a switch.
    Supply,
    /// From a relay or a switch to the loads.
    Switched,
    /// To a relay's coil.
    Coil,
    /// From a relay's coil to earth.
    CoilEarth,
    /// From a load to earth.
    Earth,
    /// From an earth stud back to the battery.
    Return,
}

/// What the installer set for a wire.
#[derive(Clone, Debug, Default)]
pub struct WireSet {
    /// Size.
    pub size: Option<Spanned<WireSize>>,
    /// Insulation by stock name.
    pub insulation: Option<String>,
    /// Whether its colour was set by hand.
    pub colour: bool,
    /// Whether the cut length was set by hand.
    pub length: bool,
    /// Whether it lies in a sleeve of its own all the way.
    pub sheathed: bool,
}

/// One insulated conductor between two pins. Current runs from `from` to `to` in normal use.
#[derive(Clone, Debug)]
pub struct Wire {
    /// Circuit and number: "W1.3"; circuit 0 is the supply side.
    pub name: String,
    /// Source end.
    pub from: PinId,
    /// Far end.
    pub to: PinId,
    /// The places it passes, both ends included.
    pub places: Vec<PlaceId>,
    /// The stretches it lies in, in order.
    pub stretches: Vec<StretchId>,
    /// Length along the route.
    pub length: Length,
    /// Length to cut: the route with both ends' allowance, or as set by hand.
    pub cut: Length,
    /// The circuit it belongs to, by index.
    pub circuit: Option<usize>,
    /// What it is for.
    pub role: Role,
    /// Its colour.
    pub colour: Colour,
    /// The nearest fuse between it and the source.
    pub fuse: Option<PartId>,
    /// A coil or a load stands between it and the source, and bounds what it can carry.
    pub bounded: bool,
    /// Joints at each end, by stock name.
    pub joints: [Vec<&'static str>; 2],
    /// What the installer set.
    pub set: WireSet,
}

/// Two pins plugged into one another.
#[derive(Clone, Copy, Debug)]
pub struct Mate {
    /// Source half: the live one, which carries the socket contacts.
    pub live: PinId,
    /// Far half.
    pub far: PinId,
    /// Joint kind by stock name.
    pub joint: &'static str,
}
