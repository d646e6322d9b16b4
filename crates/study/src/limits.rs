//! Limits and usual figures that decide something, from one table with a source on every row.

use finding::{Basis, Finding, read_toml};
use quantity::WireSize;

/// One row: a value, its unit, on whose word.
#[derive(Clone, Debug)]
pub struct Limit {
    /// Its name.
    pub name: String,
    /// The value, in the unit of the row.
    pub value: f64,
    /// The unit.
    pub unit: String,
    /// Where it comes from.
    pub source: String,
    /// How that was had.
    pub basis: Basis,
    /// What it matters to.
    pub of: LimitOf,
}

/// What a limit matters to.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum LimitOf {
    /// Every study.
    Study,
    /// Faults that are tried.
    Faults,
    /// What is measured, and what may be amiss.
    Proof,
}

impl Limit {
    /// Source and basis in one phrase.
    pub fn cite(&self) -> String {
        format!("{} ({})", self.source, self.basis)
    }
}

/// What a fuse must be able to break at a battery of up to this cranking rating.
#[derive(Clone, Debug)]
pub struct Breaking {
    /// Up to this rating, A.
    pub cranking_most: f64,
    /// Interrupting capacity, A.
    pub amps: f64,
    /// Where it comes from, and how that was had.
    pub cite: String,
}

/// The table.
#[derive(Clone, Debug)]
pub struct Limits {
    rows: Vec<Limit>,
    /// Interrupting capacities, by rising cranking rating.
    pub breaking: Vec<Breaking>,
    /// Usual metric sizes, mm².
    pub metric_mm2: Vec<f64>,
}

impl Default for Limits {
    fn default() -> Self {
        let mut limits = read(include_str!("../tables/limits.toml")).0;
        for (text, of) in [
            (include_str!("../tables/faults.toml"), LimitOf::Faults),
            (include_str!("../tables/spread.toml"), LimitOf::Proof),
            (include_str!("../tables/causes.toml"), LimitOf::Proof),
        ] {
            let rows = read(text).0.rows.into_iter();
            limits.rows.extend(rows.map(|row| Limit { of, ..row }));
        }
        limits
    }
}

fn read(text: &str) -> (Limits, Vec<Finding>) {
    read_toml(text, "table of limits", |k| Limits {
        rows: k.tables("limit", "limit", |k| {
            let (basis, source) = k.origin()?;
            Some(Limit {
                name: k.need_text("name", "…")?.value,
                value: k.number("value", -100.0..=1e7)?.value,
                unit: if k.has("unit") {
                    k.text("unit").map_or_else(String::new, |u| u.value)
                } else {
                    String::new()
                },
                source,
                basis,
                of: LimitOf::Study,
            })
        }),
        metric_mm2: k
            .tables("series", "series of sizes", |k| {
                k.origin()?;
                k.choice("family", &[("metric", ())])?;
                Some(k.numbers("mm2", 0.1..=500.0))
            })
            .concat(),
        breaking: k.tables("breaking", "interrupting capacity", |k| {
            let cite = k.cite()?;
            Some(Breaking {
                cranking_most: k.number("cranking_most", 0.0..=1e6)?.value,
                amps: k.number("amps", 0.0..=1e6)?.value,
                cite,
            })
        }),
    })
}

impl Limits {
    /// A row that the table is tested to have. One that it lacks is a slip in this program: going on
    /// with another figure would mislead, so it does not go on.
    pub fn row(&self, name: &str) -> &Limit {
        let found = self.rows.iter().find(|r| r.name == name);
        found.unwrap_or_else(|| panic!("the table of limits has no “{name}”"))
    }

    /// Whether wire of this size is usually sold. Every gauge is; metric sizes have a series.
    pub fn is_usual(&self, size: WireSize) -> bool {
        size.metric_mm2()
            .is_none_or(|mm2| self.metric_mm2.iter().any(|m| (m - mm2).abs() < 1e-6))
    }

    /// Every row, in the table's order.
    pub fn rows(&self) -> &[Limit] {
        &self.rows
    }

    /// The value of a row.
    pub fn value(&self, name: &str) -> f64 {
        self.row(name).value
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_row_reads() {
        let text = include_str!("../tables/limits.toml");
        let (limits, errors) = read(text);
        assert_eq!(errors, []);
        assert_eq!(limits.rows.len(), text.matches("[[limit]]").count());
        for text in [
            include_str!("../tables/faults.toml"),
            include_str!("../tables/spread.toml"),
            include_str!("../tables/causes.toml"),
        ] {
            let (more, errors) = read(text);
            assert_eq!(errors, []);
            assert_eq!(more.rows.len(), text.matches("[[limit]]").count());
        }
        assert!(limits.metric_mm2.contains(&2.5) && !limits.metric_mm2.contains(&3.0));
        assert!(
            limits
                .breaking
                .is_sorted_by(|a, b| a.cranking_most < b.cranking_most)
        );
    }
}
