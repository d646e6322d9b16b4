//! Places with their heat, and stretches with the wires that lie in them.

use crate::wires::WireId;
use plan::{SleeveWish, Zone};
use quantity::{Length, ThermodynamicTemperature};

/// Index of a place in the loom.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct PlaceId(pub u32);

/// Index of a stretch in the loom.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct StretchId(pub u32);

/// A spot in the vehicle.
#[derive(Clone, Debug)]
pub struct LoomPlace {
    /// Its name.
    pub name: String,
    /// Its zone.
    pub zone: Zone,
    /// Temperature around the wires, said or assumed.
    pub heat: ThermodynamicTemperature,
    /// Whether water gets there.
    pub wet: bool,
    /// What is here must come out again.
    pub comes_out: bool,
    /// Where it is, as parts of the vehicle's length from the front and of its width from the left, if the plan says.
    pub at: Option<[f64; 2]>,
}

/// A panel that a stretch passes through.
#[derive(Clone, Debug)]
pub struct LoomPanel {
    /// What it is: "bulkhead".
    pub name: String,
    /// Its thickness, said or assumed.
    pub thickness: Length,
    /// Whether the hole gets a grommet.
    pub grommet: bool,
}

/// The way between two places, and the bundle that lies in it.
#[derive(Clone, Debug)]
pub struct LoomStretch {
    /// Its ends.
    pub ends: [PlaceId; 2],
    /// Its length.
    pub length: Length,
    /// Whether that is a guess, still to be measured.
    pub guessed: bool,
    /// The panel it passes through.
    pub panel: Option<LoomPanel>,
    /// Its sleeve.
    pub sleeve: SleeveWish,
    /// Temperature along it: as said, or the hotter of its ends.
    pub heat: ThermodynamicTemperature,
    /// Whether either end is an engine space or engine bay, as rule sets mean it.
    pub engine_space: bool,
    /// The wires in it, by number.
    pub wires: Vec<WireId>,
}
