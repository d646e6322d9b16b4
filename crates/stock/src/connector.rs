//! Connectors, by the width of their contacts; seals go by the wire's outside diameter.

use crate::range;
use crate::row::{Kind, Row};
use crate::{Conductor, Origin};
use quantity::{Area, ElectricCurrent, Length, Quantity};

/// The wires that one seal fits.
#[derive(Clone, Debug, PartialEq)]
pub struct SealRange {
    /// Thinnest wire over its insulation.
    pub od_min: Length,
    /// Thickest wire over its insulation.
    pub od_max: Length,
    /// Thinnest copper of the contact that goes with this seal.
    pub wire_min: Area,
    /// Thickest copper.
    pub wire_max: Area,
    /// Its colour, by which its class is asked for. Makers differ, so that only a user's own stock says it.
    pub colour: Option<String>,
    /// Origin.
    pub origin: Origin,
}

/// A class of connector.
#[derive(Clone, Debug, PartialEq)]
pub struct Connector {
    /// "sealed, 2.8 mm contacts".
    pub name: String,
    /// Numbers of ways it is sold in, rising.
    pub ways: Vec<u32>,
    /// Whether it keeps water out.
    pub sealed: bool,
    /// Width of a blade contact or diameter of a round one, mm.
    pub contact_mm: f64,
    /// Thinnest wire.
    pub wire_min: Area,
    /// Thickest wire.
    pub wire_max: Area,
    /// Seals, by rising diameter; empty where it is not sealed.
    pub seals: Vec<SealRange>,
    /// Continuous current of each contact.
    pub amps: ElectricCurrent,
    /// Upper limit of the class, where known.
    pub most: Option<ElectricCurrent>,
    /// Of the currents.
    pub amps_origin: Origin,
    /// Insulation to strip for its contact.
    pub strip: Option<Length>,
    /// From way to way.
    pub pitch: Option<Length>,
    /// Up to so many ways stand in one row, more in two.
    pub one_row: u32,
    /// What the housing adds around the ways.
    pub shell: Option<Length>,
    /// Origin.
    pub origin: Origin,
}

impl Connector {
    /// The diameter of the round hole that a half with so many ways passes through: the diagonal of its housing.
    pub fn across(&self, ways: u32) -> Option<Length> {
        let (pitch, shell) = (self.pitch?.si(), self.shell?.si());
        let rows = if ways > self.one_row { 2 } else { 1 };
        let side = |n: u32| f64::from(n) * pitch + shell;
        Some(Length::from_si(side(ways.div_ceil(rows)).hypot(side(rows))))
    }

    /// Whether its contact takes a conductor, and where it is sealed one of its seals.
    pub fn takes(&self, wire: &Conductor) -> bool {
        let copper = (self.wire_min..=self.wire_max).contains(&wire.area);
        copper && (!self.sealed || self.seal(wire.area, wire.outside_d).is_some())
    }

    /// The seal for a wire with this copper and this outside diameter.
    pub fn seal(&self, area: Area, outside: Length) -> Option<&SealRange> {
        self.seals.iter().find(|s| {
            (s.wire_min..=s.wire_max).contains(&area) && (s.od_min..=s.od_max).contains(&outside)
        })
    }
}

fn seal(row: &Row) -> Option<SealRange> {
    row.made(SealRange {
        od_min: row.need_mm("od_min_mm"),
        od_max: row.need_mm("od_max_mm"),
        wire_min: row.need_mm2("wire_min_mm2"),
        wire_max: row.need_mm2("wire_max_mm2"),
        colour: row.text("colour"),
        origin: row.origin(),
    })
}

impl SealRange {
    /// "seal for wires of 2.03 mm to 2.85 mm outside", with its colour where stock says it.
    pub fn words(&self) -> String {
        let colour = self
            .colour
            .as_ref()
            .map_or_else(String::new, |c| format!("{c} "));
        let (from, to) = (self.od_min.show(), self.od_max.show());
        format!("{colour}seal for wires of {from} to {to} outside")
    }
}

impl Kind for Connector {
    const KEY: &'static str = "connector";

    fn read(row: &Row) -> Option<Self> {
        let origin = row.origin();
        let ways = row.numbers(
            "ways",
            f64::from(*range::COUNT.start())..=f64::from(*range::COUNT.end()),
        );
        if ways.is_empty() {
            row.refuse(
                "missing-key",
                "this connector does not say its “ways”",
                "add ways = [2, 4]",
            );
        }
        row.made(Self {
            name: row.need_text("name", "sealed, 2.8 mm contacts"),
            ways: ways.into_iter().map(|w| w as u32).collect(),
            sealed: row.flag("sealed"),
            contact_mm: row.need("contact_mm", range::MM),
            wire_min: row.need_mm2("wire_min_mm2"),
            wire_max: row.need_mm2("wire_max_mm2"),
            seals: row.children("seals", &origin, seal),
            amps: row.need_amps("amps"),
            most: row.amps("most_amps"),
            amps_origin: row.part_origin("amps_source", "amps_basis"),
            strip: row.mm("strip_mm"),
            pitch: row.mm("pitch_mm"),
            one_row: row.number("one_row", 1.0..=100.0).unwrap_or(100.0) as u32,
            shell: row.mm("shell_mm"),
            origin,
        })
    }

    fn same(&self, other: &Self) -> bool {
        self.name == other.name
    }
}
