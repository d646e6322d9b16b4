//! Studs that neither plan nor stock names, and what lists allow for, from one table with a source on every row.

use finding::read_toml;
use quantity::{Area, Quantity};

/// What ends go onto.
#[derive(Clone, Debug)]
pub(crate) struct Stud {
    /// Of what: "battery".
    pub on: String,
    /// "M8".
    pub stud: String,
    /// On whose word.
    pub cite: String,
}

/// What a list allows for beyond what is needed.
#[derive(Clone, Debug)]
pub(crate) struct Allowance {
    /// Of what: "wire".
    pub name: String,
    /// As a part of what is needed.
    pub value: f64,
    /// On whose word.
    pub cite: String,
}

/// The table.
#[derive(Clone, Debug)]
pub(crate) struct Table {
    studs: Vec<Stud>,
    /// Allowances, in the table's order.
    pub allowances: Vec<Allowance>,
    /// Rolls that wire is sold on, the shortest first.
    pub rolls: Vec<Roll>,
}

/// A roll that wire is sold on.
#[derive(Clone, Debug)]
pub(crate) struct Roll {
    /// Its length, m.
    pub metres: f64,
    /// The largest nominal section sold so; larger is bought by the metre.
    pub up_to: Area,
    /// On whose word.
    pub cite: String,
}

impl Roll {
    /// Whether wire of this copper is sold on it: a size by number may be a little more than its nearest section.
    pub fn has(&self, copper: Area) -> bool {
        copper.si() <= self.up_to.si() * 1.05
    }
}

impl Default for Table {
    fn default() -> Self {
        read(include_str!("../../tables/fit.toml")).0
    }
}

fn read(text: &str) -> (Table, Vec<finding::Finding>) {
    read_toml(text, "table of fittings", |k| {
        let rolls = k.tables("roll", "roll", |k| {
            Some(Roll {
                metres: k.number("metres", 1.0..=1000.0)?.value,
                up_to: Area::from_si(k.number("up_to_mm2", 0.1..=1000.0)?.value * 1e-6),
                cite: k.cite()?,
            })
        });
        Table {
            rolls,
            studs: k.tables("stud", "stud", |k| {
                Some(Stud {
                    on: k.need_text("on", "…")?.value,
                    stud: k.need_text("stud", "M8")?.value,
                    cite: k.cite()?,
                })
            }),
            allowances: k.tables("allowance", "allowance", |k| {
                k.need_text("unit", "…")?;
                Some(Allowance {
                    name: k.need_text("name", "…")?.value,
                    value: k.number("value", 0.0..=1.0)?.value,
                    cite: k.cite()?,
                })
            }),
        }
    })
}

impl Table {
    /// The stud of a row that the table is tested to have.
    pub fn stud(&self, on: &str) -> &Stud {
        let found = self.studs.iter().find(|s| s.on == on);
        found.unwrap_or_else(|| panic!("the table of fittings has no stud of “{on}”"))
    }

    /// An allowance that the table is tested to have.
    pub fn allowance(&self, name: &str) -> &Allowance {
        let found = self.allowances.iter().find(|a| a.name == name);
        found.unwrap_or_else(|| panic!("the table of fittings has no allowance for “{name}”"))
    }
}

#[test]
fn every_row_reads_and_the_rows_that_are_asked_for_are_there() {
    let (table, errors) = read(include_str!("../../tables/fit.toml"));
    assert_eq!(errors, []);
    for on in ["battery", "power stud", "box", "earth", "earth stud"] {
        assert!(table.stud(on).stud.starts_with('M'));
    }
    assert!(!table.rolls.is_empty() && table.rolls.is_sorted_by_key(|roll| roll.metres));
    for name in ["wire", "terminals", "sleeve"] {
        assert!(table.allowance(name).value > 0.0);
    }
}
