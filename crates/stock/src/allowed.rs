//! Asking a table of allowed currents. A size that the table does not have is never rounded up.

use crate::AmpacityTable;
use quantity::{Area, ElectricCurrent, Gauge, WireSize, amperes, figures, in_mm2};

/// Slack for comparing areas and temperatures that went through unit conversion.
const SLACK: f64 = 1e-6;

/// What a table allows, and how it came to that.
#[derive(Clone, Debug, PartialEq)]
pub struct Allowed {
    /// Allowed current.
    pub amps: ElectricCurrent,
    /// Row used.
    pub row: WireSize,
    /// Column used, °C.
    pub column_c: f64,
    /// How it was read, for the report.
    pub note: String,
}

impl AmpacityTable {
    /// The current allowed for a wire of `size` with copper `area` and insulation of class
    /// `insulation_c` °C, inside or outside an engine space, among `bundled` current-carrying wires
    /// (itself included). `None` where the table has no row or column small enough, or forbids it.
    pub fn allowed(
        &self,
        size: WireSize,
        area: Area,
        insulation_c: f64,
        engine_space: bool,
        bundled: u32,
    ) -> Option<Allowed> {
        let column = self
            .columns_c
            .iter()
            .rposition(|&c| c <= insulation_c + SLACK)?;
        let (row, own) = self.row_for(size, area)?;
        let (row_size, cells) = &self.rows[row];
        let (column, base) = (0..=column).rev().find_map(|c| Some((c, cells[c]?)))?;
        let engine = if engine_space {
            self.engine_space[column]
        } else {
            1.0
        };
        let crowd = self.bundle_factor(bundled);
        let amps = base * engine * crowd;
        if amps <= 0.0 {
            return None;
        }
        let mut note = format!(
            "{}: {row_size}, {} °C insulation, {} A",
            self.name,
            self.columns_c[column],
            figures(base, 4)
        );
        if !own {
            note += &format!(
                " (the largest row within {} mm² of copper)",
                figures(in_mm2(area), 3)
            );
        }
        if engine_space {
            note += &format!(", × {engine} in an engine space");
        }
        if crowd < 1.0 {
            note += &format!(", × {crowd} for {bundled} wires together");
        }
        Some(Allowed {
            amps: amperes(amps),
            row: *row_size,
            column_c: self.columns_c[column],
            note,
        })
    }

    /// The row to use, and whether it is the wire's own size.
    fn row_for(&self, size: WireSize, area: Area) -> Option<(usize, bool)> {
        if let Some(own) = self.rows.iter().position(|(s, _)| same_size(*s, size)) {
            return Some((own, true));
        }
        // A gauge that the table skips is not interpolated either: the next smaller row by area.
        let copper = match size {
            WireSize::Gauge(g) => in_mm2(area).min(g.area_mm2()),
            WireSize::Metric(_) => in_mm2(area),
        };
        let within = |s: WireSize| true_area_mm2(s) <= copper * (1.0 + SLACK);
        self.rows
            .iter()
            .rposition(|(s, _)| within(*s))
            .map(|row| (row, false))
    }

    fn bundle_factor(&self, bundled: u32) -> f64 {
        let hit = self
            .bundle
            .iter()
            .find(|b| (b.min_n..=b.max_n).contains(&bundled));
        hit.map_or(1.0, |b| b.factor)
    }
}

fn same_size(a: WireSize, b: WireSize) -> bool {
    match (a, b) {
        (WireSize::Gauge(a), WireSize::Gauge(b)) => a == b,
        (WireSize::Metric(a), WireSize::Metric(b)) => (in_mm2(a) - in_mm2(b)).abs() < SLACK,
        _ => false,
    }
}

/// The true area that a row's size stands for.
fn true_area_mm2(size: WireSize) -> f64 {
    match size {
        WireSize::Gauge(g) => Gauge::area_mm2(g),
        WireSize::Metric(a) => in_mm2(a),
    }
}
