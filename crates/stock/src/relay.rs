//! Relays: coil and contacts of a class, with contact ratings by kind of load.

use crate::row::{Kind, Row};
use crate::switch::ContactLoad;
use crate::{Origin, range};
use quantity::{ElectricCurrent, ElectricPotential};

/// What a contact carries, by kind of load: its steady current.
#[derive(Clone, Debug, PartialEq)]
pub struct ContactRating {
    /// Heaters and the like, near 20 °C.
    pub resistive: ElectricCurrent,
    /// Tungsten lamps, steady current; their cold start is already allowed for.
    pub lamp: ElectricCurrent,
    /// Motors, running current; their start is already allowed for.
    pub motor: ElectricCurrent,
    /// Resistive at 85 °C.
    pub hot: ElectricCurrent,
    /// Of resistive and hot.
    pub origin: Origin,
    /// Of lamp and motor.
    pub load_origin: Origin,
}

impl ContactRating {
    /// The rating for one kind of load. Inductive loads take the motor figure.
    pub fn of(&self, load: ContactLoad) -> ElectricCurrent {
        match load {
            ContactLoad::Resistive => self.resistive,
            ContactLoad::Lamp => self.lamp,
            ContactLoad::Motor | ContactLoad::Inductive => self.motor,
        }
    }
}

/// A class of relay for one system voltage.
#[derive(Clone, Debug, PartialEq)]
pub struct RelayKind {
    /// "micro", "mini", "power", "contactor".
    pub name: String,
    /// System voltage: 12 or 24.
    pub volts: u32,
    /// Terminal numbers (DIN 72552).
    pub terminals: Vec<String>,
    /// Coil at 20 °C, Ω, without what stands across it.
    pub coil_ohms: f64,
    /// Least and most coil resistance in the class, Ω.
    pub coil_spread: (f64, f64),
    /// It has closed at this voltage with the coil at 20 °C (greatest of the class).
    pub pull_in: ElectricPotential,
    /// It has opened at this voltage with the coil at 20 °C (least of the class).
    pub drop_out: ElectricPotential,
    /// Most continuous coil voltage in a place at 20 °C, where known.
    pub coil_most: Option<ElectricPotential>,
    /// The same at 85 °C.
    pub coil_most_hot: Option<ElectricPotential>,
    /// What stands across the coil: "resistor", "none".
    pub suppression: String,
    /// Its resistance, Ω, if it is a resistor.
    pub suppression_ohms: Option<f64>,
    /// Of the coil's figures.
    pub coil_origin: Origin,
    /// Closed contact, Ω: a sound one in use.
    pub contact_ohms: f64,
    /// Closed contact, Ω: the most its sheet allows.
    pub contact_most_ohms: f64,
    /// Of the contact resistances.
    pub contact_origin: Origin,
    /// The make contact, 30–87.
    pub make: ContactRating,
    /// The break contact, 30–87a, if there is one.
    pub break_: Option<ContactRating>,
    /// Width of the contact tabs, mm; `None` where it has studs.
    pub tab_mm: Option<f64>,
    /// Width of the coil tabs, mm.
    pub coil_tab_mm: Option<f64>,
    /// Contact stud, where it has studs.
    pub stud: Option<String>,
    /// Of the footprint.
    pub origin: Origin,
}

fn contact(row: &Row) -> Option<ContactRating> {
    row.made(ContactRating {
        resistive: row.need_amps("resistive"),
        lamp: row.need_amps("lamp"),
        motor: row.need_amps("motor"),
        hot: row.need_amps("hot"),
        origin: row.origin(),
        load_origin: row.part_origin("load_source", "load_basis"),
    })
}

impl Kind for RelayKind {
    const KEY: &'static str = "relay";

    fn read(row: &Row) -> Option<Self> {
        use quantity::volts;
        let origin = row.origin();
        let Some(make) = row.children("make", &origin, contact).pop() else {
            row.refuse(
                "missing-key",
                "this relay does not say its “make” contact",
                "add make = { resistive = 40, … }",
            );
            return None;
        };
        let coil_ohms = row.need("coil_ohms", range::OHMS);
        let low = row
            .number("coil_low_ohms", range::OHMS)
            .unwrap_or(coil_ohms);
        let high = row
            .number("coil_high_ohms", range::OHMS)
            .unwrap_or(coil_ohms);
        row.made(Self {
            name: row.need_text("name", "mini"),
            volts: row.need_whole("volts", range::SYSTEM),
            terminals: row.texts("terminals"),
            coil_ohms,
            coil_spread: (low, high),
            pull_in: row.need_volts("pull_in"),
            drop_out: row.need_volts("drop_out"),
            coil_most: row.number("coil_most", range::VOLTS).map(volts),
            coil_most_hot: row.number("coil_most_hot", range::VOLTS).map(volts),
            suppression: row.text("suppression").unwrap_or_else(|| "none".to_owned()),
            suppression_ohms: row.number("suppression_ohms", range::OHMS),
            coil_origin: row.part_origin("coil_source", "coil_basis"),
            contact_ohms: row.need_mohm("contact_mohm"),
            contact_most_ohms: row.need_mohm("contact_most_mohm"),
            contact_origin: row.part_origin("contact_source", "contact_basis"),
            make,
            break_: row.children("break", &origin, contact).pop(),
            tab_mm: row.number("tab_mm", range::MM),
            coil_tab_mm: row.number("coil_tab_mm", range::MM),
            stud: row.text("stud"),
            origin,
        })
    }

    fn same(&self, other: &Self) -> bool {
        self.name == other.name && self.volts == other.volts
    }
}
