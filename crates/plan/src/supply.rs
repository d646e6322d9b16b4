//! `[supply]`: the battery, the alternator and what the vehicle itself draws.

use crate::Name;
use finding::{Keys, Span};
use quantity::{
    ElectricCharge, ElectricCurrent, ElectricPotential, Misread, Quantity, Ratio, bounds,
    read as read_quantity,
};

/// The vehicle's nominal voltage.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum SystemVoltage {
    /// 12 V.
    V12,
    /// 24 V.
    V24,
}

impl SystemVoltage {
    /// Nominal volts.
    pub fn nominal(self) -> f64 {
        match self {
            Self::V12 => 12.0,
            Self::V24 => 24.0,
        }
    }

    /// Nominal volts as stock tables write it.
    pub fn volts(self) -> u32 {
        match self {
            Self::V12 => 12,
            Self::V24 => 24,
        }
    }
}

/// The kind of battery.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Chemistry {
    /// Flooded lead-acid.
    Flooded,
    /// Absorbed glass mat.
    Agm,
    /// Gel.
    Gel,
    /// Lithium iron phosphate.
    LithiumIron,
}

impl Chemistry {
    /// Each kind with its word in plans.
    pub const WORDS: [(&'static str, Self); 4] = [
        ("flooded", Self::Flooded),
        ("AGM", Self::Agm),
        ("gel", Self::Gel),
        ("lithium iron phosphate", Self::LithiumIron),
    ];
}

/// The battery that feeds the added circuits.
#[derive(Clone, Debug)]
pub struct Battery {
    /// Kind.
    pub chemistry: Chemistry,
    /// Rated capacity (20 h).
    pub capacity: ElectricCharge,
    /// Cranking rating (−18 °C, 30 s, 7.2 V).
    pub cranking: Option<ElectricCurrent>,
    /// The part of the rated capacity that is left.
    pub health: Option<Ratio>,
    /// The least charge at which the engine still starts, of what is left.
    pub cranks: Option<Ratio>,
    /// Peukert's exponent: 1 when a faster draw costs no capacity.
    pub peukert: Option<f64>,
    /// Where it stands.
    pub place: Name,
    /// Whether its live post is covered.
    pub cover: bool,
    /// Where `battery = …` is written.
    pub span: Span,
}

/// The alternator.
#[derive(Clone, Debug)]
pub struct Alternator {
    /// Rated output.
    pub rated: ElectricCurrent,
    /// Output at idle.
    pub idling: Option<ElectricCurrent>,
    /// Regulated voltage.
    pub volts: Option<ElectricPotential>,
}

/// What the vehicle draws without anything added.
#[derive(Clone, Copy, Debug, Default)]
pub struct VehicleDraw {
    /// Driving.
    pub driving: Option<ElectricCurrent>,
    /// Idling.
    pub idling: Option<ElectricCurrent>,
    /// Key on, engine off.
    pub key_on: Option<ElectricCurrent>,
    /// Parked.
    pub parked: Option<ElectricCurrent>,
    /// Cranking.
    pub cranking: Option<ElectricCurrent>,
}

/// `[supply]`.
#[derive(Clone, Debug)]
pub struct Supply {
    /// 12 V or 24 V.
    pub system: SystemVoltage,
    /// The battery.
    pub battery: Battery,
    /// The alternator, if there is one.
    pub alternator: Option<Alternator>,
    /// The vehicle's own draw.
    pub vehicle: VehicleDraw,
}

fn system(text: &str) -> Result<SystemVoltage, Misread> {
    let volts = read_quantity::<ElectricPotential>(text)?.si();
    match volts {
        12.0 => Ok(SystemVoltage::V12),
        24.0 => Ok(SystemVoltage::V24),
        _ => Err(Misread {
            what: format!("a {} system is not known", text.trim()),
            mend: "write \"12 V\" or \"24 V\"".into(),
        }),
    }
}

pub(crate) fn read(k: &Keys) -> Option<Supply> {
    if !k.has("system") {
        k.error(
            "missing-key",
            k.span(),
            "the supply does not say its “system”",
            "add system = \"12 V\" or \"24 V\"",
        );
    }
    let system = k.parsed("system", system);
    let battery = k.need_table(
        "battery",
        "battery",
        "{ chemistry = \"flooded\", capacity = \"74 Ah\", place = \"…\" }",
        read_battery,
    );
    let alternator = k.table("alternator", "alternator", |k| {
        Some(Alternator {
            idling: k.quantity("idling", &bounds::ALTERNATOR).map(|v| v.value),
            volts: k.quantity("volts", &bounds::VOLTAGE).map(|v| v.value),
            rated: k.need_quantity("rated", &bounds::ALTERNATOR)?.value,
        })
    });
    let vehicle = k.table("vehicle", "vehicle's own draw", |k| {
        let draw = |key| k.quantity(key, &bounds::VEHICLE_DRAW).map(|v| v.value);
        VehicleDraw {
            driving: draw("driving"),
            idling: draw("idling"),
            key_on: draw("key_on"),
            parked: draw("parked"),
            cranking: draw("cranking"),
        }
    });
    Some(Supply {
        system: system?.value,
        battery: battery??,
        alternator: alternator.flatten(),
        vehicle: vehicle.unwrap_or_default(),
    })
}

fn read_battery(k: &Keys) -> Option<Battery> {
    let chemistry = k
        .choice("chemistry", &Chemistry::WORDS)
        .map_or(Chemistry::Flooded, |c| c.value);
    let capacity = k.need_quantity("capacity", &bounds::CAPACITY);
    let cranking = k.quantity("cranking", &bounds::CRANKING);
    let health = k.quantity("health", &bounds::HEALTH);
    let cranks = k.quantity("cranks_at", &bounds::CRANKS_AT);
    let peukert = k.number("peukert", 1.0..=2.0);
    let place = k.need_text("place", "battery tray");
    let cover = k.flag("cover").is_none_or(|c| c.value);
    Some(Battery {
        chemistry,
        capacity: capacity?.value,
        cranking: cranking.map(|c| c.value),
        health: health.map(|h| h.value),
        cranks: cranks.map(|c| c.value),
        peukert: peukert.map(|p| p.value),
        cover,
        place: place?,
        span: k.span(),
    })
}
