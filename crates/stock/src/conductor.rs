//! Conductors: one row for each wire on the reel, in three families that never turn into one another.

use crate::row::{Kind, Row};
use crate::{Origin, range};
use quantity::{Area, Length, WireSize};

/// Which standard sizes a wire follows.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Family {
    /// Metric vehicle cable, nominal mm².
    Metric,
    /// SAE vehicle cable: gauge numbers with areas a few per cent below the true gauge.
    Sae,
    /// Boat cable: gauge numbers with the full gauge area, tinned.
    Boat,
}

impl Family {
    /// Every family with its word.
    pub const WORDS: [(&'static str, Self); 3] = [
        ("metric", Self::Metric),
        ("SAE", Self::Sae),
        ("AWG boat", Self::Boat),
    ];

    /// Its word in plans, tables and reports.
    pub fn word(self) -> &'static str {
        match self {
            Self::Metric => "metric",
            Self::Sae => "SAE",
            Self::Boat => "AWG boat",
        }
    }
}

impl std::fmt::Display for Family {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        f.write_str(self.word())
    }
}

/// One wire that can be bought by the metre.
#[derive(Clone, Debug, PartialEq)]
pub struct Conductor {
    /// Unique: "2.5 mm² thin-wall PVC", "12 AWG SAE thick-wall PVC 80", "12 AWG boat cable".
    pub id: String,
    /// Family.
    pub family: Family,
    /// Size as it is asked for.
    pub size: WireSize,
    /// Name of its insulation.
    pub insulation: String,
    /// "ultra-thin", "thin", "thick".
    pub wall: String,
    /// Copper area: the nominal one of a metric wire, the listed one of a gauge.
    pub area: Area,
    /// Most resistance at 20 °C, Ω/m.
    pub ohm_per_m_20: f64,
    /// Diameter of the bare conductor (greatest).
    pub conductor_d: Length,
    /// Diameter over the insulation (greatest).
    pub outside_d: Length,
    /// Price of a metre, if the user's table says one.
    pub price_per_m: Option<f64>,
    /// Of size, area and resistance.
    pub origin: Origin,
    /// Of the two diameters.
    pub diameter_origin: Origin,
}

/// The id of a wire that does not say its own.
fn id_of(family: Family, size: WireSize, wall: &str, insulation: &str) -> String {
    match family {
        Family::Metric => format!("{size} {wall}-wall {insulation}"),
        Family::Sae => format!("{size} SAE {wall}-wall {insulation}"),
        Family::Boat => format!("{size} boat cable"),
    }
}

impl Kind for Conductor {
    const KEY: &'static str = "conductor";

    fn read(row: &Row) -> Option<Self> {
        let family = row.need_choice("family", &Family::WORDS);
        let size = row.need_size("size");
        if matches!(size, WireSize::Metric(_)) != (family == Family::Metric) {
            let mend = "metric wires are sized in mm², SAE and AWG boat wires by gauge: \"12 AWG\"";
            row.refuse("mixed-family", "this size is not one of its family", mend);
        }
        let insulation = row.need_text("insulation", "PVC");
        let wall = row.need_text("wall", "thin");
        let id = row
            .text("id")
            .unwrap_or_else(|| id_of(family, size, &wall, &insulation));
        row.made(Self {
            id,
            family,
            size,
            insulation,
            wall,
            area: row.need_mm2("area_mm2"),
            ohm_per_m_20: row.need("mohm_per_m", range::MOHM_PER_M) * 1e-3,
            conductor_d: row.need_mm("conductor_mm"),
            outside_d: row.need_mm("outside_mm"),
            price_per_m: row.number("price_per_m", range::PRICE),
            origin: row.origin(),
            diameter_origin: row.part_origin("diameter_source", "diameter_basis"),
        })
    }

    fn same(&self, other: &Self) -> bool {
        self.id == other.id
    }
}
