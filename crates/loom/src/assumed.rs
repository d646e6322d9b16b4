//! What is taken when a plan does not say, from one table, and the list of what was taken.

use finding::{Basis, Finding, read_toml};
use plan::Zone;
use quantity::{ElectricalResistance, Length, Quantity, ThermodynamicTemperature, bounds};

/// Something assumed, for the list that every report carries.
#[derive(Clone, Debug, PartialEq)]
pub struct Assumption {
    /// What it is: "heat at rack".
    pub what: String,
    /// The value, as a person reads it.
    pub value: String,
    /// On whose word.
    pub source: String,
    /// How that word was had.
    pub basis: Basis,
    /// How to set it.
    pub set: String,
}

struct ZoneRow {
    zone: Zone,
    heat: ThermodynamicTemperature,
    wet: bool,
    basis: Basis,
    source: String,
}

struct ValueRow {
    name: String,
    length: Option<Length>,
    resistance: Option<ElectricalResistance>,
    number: Option<f64>,
    what: String,
    set: String,
    basis: Basis,
    source: String,
}

/// The table of assumed values.
pub struct Assumed {
    zones: Vec<ZoneRow>,
    values: Vec<ValueRow>,
}

impl Default for Assumed {
    fn default() -> Self {
        read(include_str!("../tables/assumed.toml")).0
    }
}

fn read(text: &str) -> (Assumed, Vec<Finding>) {
    read_toml(text, "table of assumed values", |k| Assumed {
        zones: k.tables("zone", "zone", |k| {
            let (basis, source) = k.origin()?;
            Some(ZoneRow {
                zone: k.choice("zone", &Zone::WORDS)?.value,
                heat: k.need_quantity("heat", &bounds::HEAT)?.value,
                wet: k.flag("wet")?.value,
                basis,
                source,
            })
        }),
        values: k.tables("value", "value", |k| {
            let (basis, source) = k.origin()?;
            Some(ValueRow {
                name: k.need_text("name", "tail")?.value,
                length: k
                    .parsed("length", quantity::read::<Length>)
                    .map(|v| v.value),
                resistance: k
                    .quantity("resistance", &bounds::FEED_RESISTANCE)
                    .map(|v| v.value),
                number: k.number("number", 0.0..=1e6).map(|v| v.value),
                what: k.need_text("what", "…")?.value,
                set: k.need_text("set", "…")?.value,
                basis,
                source,
            })
        }),
    })
}

impl Assumed {
    /// Heat and wet of a zone, and the assumption to list for a place of this name.
    pub(crate) fn zone(
        &self,
        zone: Zone,
        place: &str,
    ) -> (ThermodynamicTemperature, bool, Assumption) {
        let found = self.zones.iter().find(|r| r.zone == zone);
        let row = found.unwrap_or_else(|| lacks(zone.word()));
        let assumption = Assumption {
            what: format!("heat at {place} ({})", zone.word()),
            value: row.heat.show(),
            source: row.source.clone(),
            basis: row.basis,
            set: format!("heat = \"…\" of the place “{place}”"),
        };
        (row.heat, row.wet, assumption)
    }

    fn value(&self, name: &str) -> &ValueRow {
        let found = self.values.iter().find(|r| r.name == name);
        found.unwrap_or_else(|| lacks(name))
    }

    /// An assumed length, noted in `list`.
    pub(crate) fn length(&self, name: &str, list: &mut Vec<Assumption>) -> Length {
        let row = self.value(name);
        let v = row.length.unwrap_or_else(|| lacks(name));
        note(row, v.show(), list);
        v
    }

    /// An assumed resistance, noted in `list`.
    pub fn resistance(&self, name: &str, list: &mut Vec<Assumption>) -> ElectricalResistance {
        let row = self.value(name);
        let v = row.resistance.unwrap_or_else(|| lacks(name));
        note(row, v.show(), list);
        v
    }

    /// An assumed plain number, noted in `list`.
    pub fn number(&self, name: &str, list: &mut Vec<Assumption>) -> f64 {
        let row = self.value(name);
        let v = row.number.unwrap_or_else(|| lacks(name));
        note(row, quantity::figures(v, 3), list);
        v
    }
}

/// A value that the table lacks is a slip in this program; another figure in its place would mislead.
fn lacks(name: &str) -> ! {
    panic!("the table of assumed values lacks “{name}”")
}

/// Lists an assumption once.
fn note(row: &ValueRow, value: String, list: &mut Vec<Assumption>) {
    let new = Assumption {
        what: row.what.clone(),
        value,
        source: row.source.clone(),
        basis: row.basis,
        set: row.set.clone(),
    };
    if !list.contains(&new) {
        list.push(new);
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_table_is_whole() {
        let (table, errors) = read(include_str!("../tables/assumed.toml"));
        assert_eq!(errors, []);
        for (_, zone) in Zone::WORDS {
            assert!(table.zones.iter().any(|r| r.zone == zone), "{zone:?}");
        }
        for name in [
            "fuse distance",
            "tail",
            "drip loop",
            "spare at the dash",
            "panel thickness",
        ] {
            assert!(table.value(name).length.is_some());
        }
        for name in [
            "cranking rating per ampere-hour",
            "lithium rating per ampere-hour",
            "rated volts",
        ] {
            assert!(table.value(name).number.is_some());
        }
        for name in ["feed resistance", "signal resistance", "body return"] {
            assert!(table.value(name).resistance.is_some());
        }
    }
}
