//! Parts and their pins. Terminal marks follow DIN 72552; names follow the IEC 81346 letters in
//! the older set that vehicle readers know (G, F, K, S, E, M, A, X), numbered by circuit.

use crate::places::PlaceId;
use finding::{Span, Spanned};
use plan::{Duty, EarthReturn, FeedKind, LoadKind, Rated, SupplyState, Surface, SwitchBreaks};
use quantity::{ElectricCurrent, ElectricPotential, ElectricalResistance, Length, Power, Ratio};

/// Index of a part in the loom.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct PartId(pub u32);

/// Index of a pin in the loom.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct PinId(pub u32);

/// A terminal of a part.
#[derive(Clone, Debug)]
pub struct Pin {
    /// Its part.
    pub part: PartId,
    /// Its mark: 30, 85, 86, 87, 87a, 31, 15, or a number.
    pub terminal: String,
}

/// A thing with terminals.
#[derive(Clone, Debug)]
pub struct Part {
    /// Letter and number: "K1".
    pub name: String,
    /// What a person calls it: "rack lamps relay".
    pub label: String,
    /// What it is.
    pub kind: PartKind,
    /// Where it is.
    pub place: PlaceId,
    /// The circuit it belongs to, by index; none for the supply side.
    pub circuit: Option<usize>,
    /// Its pins.
    pub pins: Vec<PinId>,
    /// Where the plan speaks of it.
    pub span: Span,
}

/// What a part is.
#[derive(Clone, Debug)]
pub enum PartKind {
    /// The battery: 30 and 31.
    Battery {
        /// Whether its live post is covered.
        cover: bool,
    },
    /// A feed of the vehicle: 30, or 15 when live with the ignition.
    Feed(FeedPart),
    /// A fuse: 1 (source side) and 2.
    Fuse(FusePart),
    /// A box's bus bar: 30.
    Box(BoxPart),
    /// A relay: 30, 85, 86, 87 and 87a.
    Relay(RelayPart),
    /// A switch: 82 and 82a, or 83, 83a and 83b with three positions.
    Switch(SwitchPart),
    /// A cut-out: 30, 87, and 31 for its own earth.
    Cutout(CutoutPart),
    /// A load: + and 31.
    Load(LoadPart),
    /// An earth point: 31.
    Earth(EarthPart),
    /// A crimped splice: one pin that several wires share.
    Splice,
    /// A connector: pins 1 … n on the source half, and the same with a prime on the other.
    Connector {
        /// Made so that a load unplugs, or so that a place comes out.
        unplugs_load: bool,
    },
    /// A signal of the vehicle: one pin.
    Signal(SignalPart),
}

/// A feed.
#[derive(Clone, Debug)]
pub struct FeedPart {
    /// Its kind.
    pub kind: FeedKind,
    /// The fuse that the vehicle has before it.
    pub fused: Option<ElectricCurrent>,
    /// What may be taken.
    pub gives: Option<ElectricCurrent>,
    /// From the battery to it.
    pub resistance: ElectricalResistance,
    /// Whether its live metal is covered.
    pub cover: bool,
}

/// A fuse position.
#[derive(Clone, Debug)]
pub struct FusePart {
    /// The box and way it sits in; none for a fuse in the line.
    pub way: Option<(PartId, u32)>,
    /// Kind by stock name, if the installer or the box says.
    pub kind: Option<Spanned<String>>,
    /// Rating, if the installer says.
    pub rating: Option<Spanned<ElectricCurrent>>,
    /// Along the wire from the source; nothing for a way of a box.
    pub from_source: Option<Length>,
    /// Whether the wire before it is sheathed all the way.
    pub sheathed: bool,
    /// Whether its source is the battery itself.
    pub at_battery: bool,
}

/// A fuse box.
#[derive(Clone, Debug)]
pub struct BoxPart {
    /// How many ways.
    pub ways: u32,
    /// The fuse at its feeder's source, if one is fitted.
    pub main: Option<PartId>,
    /// What each spare way is to carry later.
    pub spare: Option<ElectricCurrent>,
    /// Whether its live metal is covered.
    pub cover: bool,
}

/// A relay.
#[derive(Clone, Debug)]
pub struct RelayPart {
    /// Kind by stock name.
    pub kind: String,
    /// The contact in use: "87" makes, "87a" breaks.
    pub contact: &'static str,
    /// Holds a condition rather than switching the load.
    pub condition: bool,
    /// Its push-on terminals have no insulation.
    pub bare: bool,
}

/// A switch.
#[derive(Clone, Debug)]
pub struct SwitchPart {
    /// Two or three positions.
    pub positions: u32,
    /// What it breaks, when it works a relay.
    pub breaks: Option<SwitchBreaks>,
    /// Kind by stock name, if the installer says.
    pub kind: Option<Spanned<String>>,
    /// Rating, if the installer has it already.
    pub rating: Option<ElectricCurrent>,
    /// Its push-on terminals have no insulation.
    pub bare: bool,
    /// In the whole supply of its circuit, and off whenever that is not wanted.
    pub isolator: bool,
}

/// A load.
#[derive(Clone, Debug)]
pub struct LoadPart {
    /// Its kind.
    pub kind: LoadKind,
    /// Rating.
    pub rated: Rated,
    /// Voltage at which the rating holds.
    pub at: ElectricPotential,
    /// Starting current, if the installer says.
    pub start: Option<ElectricCurrent>,
    /// Least voltage it works at.
    pub lowest: Option<ElectricPotential>,
    /// Most voltage it bears.
    pub highest: Option<ElectricPotential>,
    /// Allowed drop.
    pub drop: Ratio,
    /// Does harm when on unasked.
    pub hazard: bool,
    /// How it is on, if it switches itself.
    pub duty: Option<Duty>,
}

/// A cut-out: it lets a circuit go when its own input falls, and in again when that has risen.
#[derive(Clone, Debug)]
pub struct CutoutPart {
    /// It cuts out below this.
    pub opens: ElectricPotential,
    /// It lets in again above this.
    pub closes: ElectricPotential,
    /// The most it carries, if the installer says.
    pub rating: Option<ElectricCurrent>,
    /// What it draws itself.
    pub draws: ElectricCurrent,
}

/// An earth point.
#[derive(Clone, Debug)]
pub struct EarthPart {
    /// How current returns from it.
    pub to: EarthReturn,
    /// What it is fixed to.
    pub surface: Surface,
}

/// A signal of the vehicle.
#[derive(Clone, Debug)]
pub struct SignalPart {
    /// What may be taken from it.
    pub gives: Option<ElectricCurrent>,
    /// The fuse that the vehicle has before it.
    pub fused: Option<ElectricCurrent>,
    /// The supply states it can be there in; empty when it may be there in any.
    pub when: Vec<SupplyState>,
    /// The vehicle's own lamps on it.
    pub lamp: Option<Power>,
}
