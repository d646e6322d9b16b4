//! Joints: what a sound one adds to the circuit, and how much an old one may add.

use crate::Origin;
use crate::range;
use crate::row::{Kind, Row};

/// A kind of joint.
#[derive(Clone, Debug, PartialEq)]
pub struct JointKind {
    /// "crimp", "splice crimp", "ring on stud", "earth ring on body", "battery clamp", "tab",
    /// "mated sealed", "mated open", "fuse contact", "relay socket contact".
    pub name: String,
    /// Sound, Ω.
    pub ohms: f64,
    /// Resistance late in life over the sound one.
    pub life_factor: f64,
    /// Origin.
    pub origin: Origin,
}

impl Kind for JointKind {
    const KEY: &'static str = "joint";

    fn read(row: &Row) -> Option<Self> {
        row.made(Self {
            name: row.need_text("name", "crimp"),
            ohms: row.need_mohm("mohm"),
            life_factor: row.need("life_factor", range::FACTOR),
            origin: row.origin(),
        })
    }

    fn same(&self, other: &Self) -> bool {
        self.name == other.name
    }
}
