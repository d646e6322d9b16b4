//! What a fault changes in a network: what touches, what resists more, which contact stands whatever its
//! coil gets. Plain data that [`crate::network`] builds by.

use crate::lost::Lost;
use crate::state::Position;
use loom::{PartId, PinId, WireId};

/// A spot where something can touch.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Spot {
    /// A pin, with the ends of the wires on it.
    Pin(PinId),
    /// Halfway along a wire.
    Middle(WireId),
}

/// Two spots that touch, or one and the body.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Touching {
    /// The first.
    pub a: Spot,
    /// The second; the body if there is none.
    pub b: Option<Spot>,
    /// Resistance of where they touch, Ω.
    pub ohms: f64,
}

/// Joints that resist more than they should.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Poor {
    /// Those at the ends of a wire.
    Wire(WireId),
    /// Those of a plugged pair of pins, by index.
    Mate(usize),
    /// An earth point's own, to the body.
    Earth(PartId),
    /// Those of a fuse in its holder.
    Fuse(PartId),
    /// The closed contact of a relay, a switch or a cut-out.
    Contact(PartId),
}

/// A supply in place of battery and alternator.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Foreign {
    /// Its voltage, V; negative where it is connected the wrong way round.
    pub volts: f64,
    /// Its resistance, Ω.
    pub ohms: f64,
}

/// Most fuses that one fault is followed through.
pub const MOST_BLOWN: usize = 4;

/// All that is otherwise than in the loom as planned.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Change {
    /// What has come off.
    pub lost: Lost,
    /// What touches.
    pub touch: Option<Touching>,
    /// Joints with this much more resistance, Ω.
    pub joint: Option<(Poor, f64)>,
    /// A relay's contact that stands, closed or open, whatever its coil gets.
    pub held: Option<(PartId, bool)>,
    /// A switch that stands in this position, wherever it is turned.
    pub turned: Option<(PartId, Position)>,
    /// A load with nothing but this resistance left, Ω.
    pub shorted: Option<(PartId, f64)>,
    /// A load that draws this much, A.
    pub draws: Option<(PartId, f64)>,
    /// A load, or a relay's coil, that no current passes any more.
    pub dead: Option<PartId>,
    /// The battery's charge, 0 to 1, where it is not what it should be.
    pub charge: Option<f64>,
    /// The alternator gives nothing.
    pub uncharged: bool,
    /// What supplies instead of battery and alternator.
    pub foreign: Option<Foreign>,
    /// Fuses that have opened, the vehicle's own among them.
    pub blown: [Option<PartId>; MOST_BLOWN],
}

impl Change {
    /// Something lost.
    pub(crate) fn lost(lost: Lost) -> Self {
        Self {
            lost,
            ..Self::default()
        }
    }

    /// A spot that touches the body, through so much with the body itself, Ω.
    pub(crate) fn to_body(spot: Spot, ohms: f64) -> Self {
        Self {
            touch: Some(Touching {
                a: spot,
                b: None,
                ohms,
            }),
            ..Self::default()
        }
    }

    /// How much more some joints resist, Ω.
    pub(crate) fn more_ohms(&self, poor: Poor) -> f64 {
        self.joint.filter(|j| j.0 == poor).map_or(0.0, |j| j.1)
    }

    /// Whether a fuse has opened.
    pub(crate) fn is_blown(&self, part: PartId) -> bool {
        self.blown.contains(&Some(part))
    }

    /// The same with one more fuse open; none when that is one too many to follow.
    pub(crate) fn blow(mut self, part: PartId) -> Option<Self> {
        let free = self.blown.iter_mut().find(|b| b.is_none())?;
        *free = Some(part);
        Some(self)
    }

    /// The same with a new fuse in place of one that is open.
    pub(crate) fn renewed(mut self, part: PartId) -> Self {
        for blown in &mut self.blown {
            if *blown == Some(part) {
                *blown = None;
            }
        }
        self
    }

    /// Whether a wire is touched halfway along.
    pub(crate) fn splits(&self, wire: WireId) -> bool {
        let middle = Spot::Middle(wire);
        self.touch
            .is_some_and(|t| t.a == middle || t.b == Some(middle))
    }
}
