//! Terminals crimped to a wire's end, and butt joints between two ends.

use crate::Origin;
use crate::range;
use crate::row::{Kind, Row};
use quantity::{Area, ElectricCurrent, Length};

/// A terminal class for a range of wires.
#[derive(Clone, Debug, PartialEq)]
pub struct Terminal {
    /// "ring", "fork", "tab" (the receptacle that goes on a tab), "butt" (one wire in each end), "splice" (several side by side).
    pub kind: String,
    /// Thinnest wire, copper area; of a splice all wires together.
    pub wire_min: Area,
    /// Thickest wire, copper area; of a splice all wires together.
    pub wire_max: Area,
    /// Stud of a ring or fork: "M6".
    pub stud: Option<String>,
    /// Tab width, mm.
    pub tab_mm: Option<f64>,
    /// Continuous current. `None`: no less than its wire carries.
    pub amps: Option<ElectricCurrent>,
    /// Upper limit of the class with its largest wire and good plating, where known.
    pub most: Option<ElectricCurrent>,
    /// Of the currents.
    pub amps_origin: Origin,
    /// Colour of an insulated barrel.
    pub colour: Option<String>,
    /// Insulation to strip.
    pub strip: Option<Length>,
    /// Outside of its barrel, over what insulates it.
    pub barrel: Option<Length>,
    /// The widest of it: palm, receptacle or barrel.
    pub across: Option<Length>,
    /// Whether it has an insulating barrel.
    pub insulated: bool,
    /// Whether its barrel is lined with adhesive that seals it when shrunk.
    pub sealed: bool,
    /// Origin.
    pub origin: Origin,
}

impl Kind for Terminal {
    const KEY: &'static str = "terminal";

    fn read(row: &Row) -> Option<Self> {
        row.made(Self {
            kind: row.need_text("kind", "ring"),
            wire_min: row.need_mm2("wire_min_mm2"),
            wire_max: row.need_mm2("wire_max_mm2"),
            stud: row.text("stud"),
            tab_mm: row.number("tab_mm", range::MM),
            amps: row.amps("amps"),
            most: row.amps("most_amps"),
            amps_origin: row.part_origin("amps_source", "amps_basis"),
            colour: row.text("colour"),
            strip: row.mm("strip_mm"),
            barrel: row.mm("barrel_mm"),
            across: row.mm("across_mm"),
            insulated: row.flag("insulated"),
            sealed: row.flag("sealed"),
            origin: row.origin(),
        })
    }

    fn same(&self, other: &Self) -> bool {
        self.kind == other.kind
            && (&self.stud, self.tab_mm, &self.colour) == (&other.stud, other.tab_mm, &other.colour)
            && (self.wire_min, self.wire_max) == (other.wire_min, other.wire_max)
            && (self.insulated, self.sealed) == (other.insulated, other.sealed)
    }
}
