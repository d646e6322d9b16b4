//! Switches, and by how much a switch must be larger than the load it works.

use crate::row::{Kind, Row};
use crate::{Origin, range};
use quantity::ElectricCurrent;

/// What a contact switches, as far as the contact can tell.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum ContactLoad {
    /// Tungsten lamps: ten times the current while cold.
    Lamp,
    /// Relays and solenoids.
    Inductive,
    /// Heaters, electronics.
    Resistive,
    /// Motors.
    Motor,
}

impl ContactLoad {
    /// Every kind with its word.
    pub const WORDS: [(&'static str, Self); 4] = [
        ("lamp", Self::Lamp),
        ("inductive", Self::Inductive),
        ("resistive", Self::Resistive),
        ("motor", Self::Motor),
    ];

    /// Its word.
    pub fn word(self) -> &'static str {
        match self {
            Self::Lamp => "lamp",
            Self::Inductive => "inductive",
            Self::Resistive => "resistive",
            Self::Motor => "motor",
        }
    }
}

/// A class of switch at one system voltage.
#[derive(Clone, Debug, PartialEq)]
pub struct SwitchKind {
    /// "rocker", "toggle", "pull", "push button".
    pub name: String,
    /// 2 (off, on) or 3 (on, off, on).
    pub positions: u32,
    /// System voltage: 12 or 24.
    pub volts: u32,
    /// Rating, resistive.
    pub rating: ElectricCurrent,
    /// Closed contact, Ω: a sound one in use.
    pub contact_ohms: f64,
    /// Of the contact resistance.
    pub contact_origin: Origin,
    /// Whether it has a lamp of its own, which needs an earth.
    pub illuminated: bool,
    /// Width of its tabs, mm.
    pub tab_mm: f64,
    /// Origin.
    pub origin: Origin,
}

impl Kind for SwitchKind {
    const KEY: &'static str = "switch";

    fn read(row: &Row) -> Option<Self> {
        row.made(Self {
            name: row.need_text("name", "rocker"),
            positions: row.need_whole("positions", 2..=3),
            volts: row.need_whole("volts", range::SYSTEM),
            rating: row.need_amps("rating"),
            contact_ohms: row.need_mohm("contact_mohm"),
            contact_origin: row.part_origin("contact_source", "contact_basis"),
            illuminated: row.flag("illuminated"),
            tab_mm: row.need("tab_mm", range::MM),
            origin: row.origin(),
        })
    }

    fn same(&self, other: &Self) -> bool {
        self.name == other.name
            && (self.positions, self.volts, self.illuminated)
                == (other.positions, other.volts, other.illuminated)
    }
}

/// Nominal rating needed = continuous current × factor.
#[derive(Clone, Debug, PartialEq)]
pub struct Derating {
    /// System voltage: 12 or 24.
    pub volts: u32,
    /// Kind of load.
    pub load: ContactLoad,
    /// Factor.
    pub factor: f64,
    /// Origin.
    pub origin: Origin,
}

impl Kind for Derating {
    const KEY: &'static str = "derating";

    fn read(row: &Row) -> Option<Self> {
        row.made(Self {
            volts: row.need_whole("volts", range::SYSTEM),
            load: row.need_choice("load", &ContactLoad::WORDS),
            factor: row.need("factor", range::FACTOR),
            origin: row.origin(),
        })
    }

    fn same(&self, other: &Self) -> bool {
        self.volts == other.volts && self.load == other.load
    }
}
