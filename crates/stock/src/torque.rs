//! How hard the nut of a stud is drawn, by what the stud is of. The part's own sheet wins over any of these.

use crate::Origin;
use crate::range;
use crate::row::{Kind, Row};

/// A row of the table.
#[derive(Clone, Debug, PartialEq)]
pub struct Torque {
    /// Of what: "battery stud", "body earth", "fuse holder", "terminal screw".
    pub of: String,
    /// "M8".
    pub stud: String,
    /// The least, N·m.
    pub least: f64,
    /// The most, N·m.
    pub most: f64,
    /// Origin.
    pub origin: Origin,
}

impl Kind for Torque {
    const KEY: &'static str = "torque";

    fn read(row: &Row) -> Option<Self> {
        let (least, most) = (
            row.need("least_nm", range::NEWTON_METRE),
            row.need("most_nm", range::NEWTON_METRE),
        );
        if least > most {
            row.refuse(
                "bad-value",
                "its least torque is above its most",
                "write the smaller one as least_nm",
            );
        }
        row.made(Self {
            of: row.need_text("of", "battery stud"),
            stud: row.need_text("stud", "M8"),
            least,
            most,
            origin: row.origin(),
        })
    }

    fn same(&self, other: &Self) -> bool {
        (&self.of, &self.stud) == (&other.of, &other.stud)
    }
}
