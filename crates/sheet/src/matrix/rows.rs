//! The rows in lines: each with its words broken to their columns, and a heading before each kind.

use super::table::Table;
use super::{COLUMN, FIFTH, FaultMatrix, KIND, MatrixRow};
use crate::chart::{AIR, Chart, GRID, block};
use crate::geometry::{Frame, at};
use crate::label::Align;
use crate::text::{SIZE, wrap};

/// Free above and below a row's words, and a heading's, mm.
const AROUND: f64 = 0.55;
const KIND_AROUND: f64 = 0.9;
/// Half the width of the sheet's border, mm.
const BORDER: f64 = 0.35;
/// From the mark of a weight to the words, mm.
const MARK: f64 = 2.6;

/// What takes height in a table.
#[derive(Clone, Debug)]
pub(super) enum Row<'a> {
    Kind(Vec<String>),
    Fault {
        row: &'a MatrixRow,
        at: Vec<String>,
        outcome: Vec<String>,
    },
}

impl<'a> Row<'a> {
    /// A heading of a kind; of one that began on the sheet before.
    pub fn kind(kind: &str, table: &Table, goes_on: bool) -> Self {
        let more = if goes_on { ", continued" } else { "" };
        let wide = table.border.right - table.border.left - 2.0 * AIR;
        Self::Kind(wrap(&format!("{kind}{more}"), SIZE, wide))
    }

    fn fault(row: &'a MatrixRow, table: &Table) -> Self {
        Self::Fault {
            row,
            at: wrap(&row.at, SIZE, table.names),
            outcome: wrap(&row.outcome, SIZE, table.outcomes.1),
        }
    }

    /// How tall it is, mm.
    pub fn height(&self) -> f64 {
        match self {
            Self::Kind(lines) => block(lines.len()) + 2.0 * KIND_AROUND,
            Self::Fault { at, outcome, .. } => block(at.len().max(outcome.len())) + 2.0 * AROUND,
        }
    }

    /// Puts it with its top here.
    pub fn place(&self, chart: &mut Chart, table: &Table, top: f64) {
        let bottom = top + self.height();
        let (left, right) = (table.border.left, table.border.right);
        match self {
            Self::Kind(lines) => {
                let frame = Frame {
                    left: left + BORDER,
                    right: right - BORDER,
                    top,
                    bottom,
                };
                chart.band(KIND, frame);
                chart.words(lines, (left + AIR, top + KIND_AROUND), Align::Start);
            }
            Self::Fault { row, at, outcome } => {
                cells(chart, row, table, (top, bottom));
                let words = |lines: usize| (top + bottom - block(lines)) / 2.0;
                chart.words(at, (left + AIR, words(at.len())), Align::Start);
                let place = (table.outcomes.0, words(outcome.len()));
                chart.words(outcome, place, Align::Start);
            }
        }
        chart.line(GRID, vec![self::at(left, bottom), self::at(right, bottom)]);
    }
}

/// The cells of a row with the lines between them, and the mark of its weight.
fn cells(chart: &mut Chart, row: &MatrixRow, table: &Table, (top, bottom): (f64, f64)) {
    let middle = (top + bottom) / 2.0;
    let last = table.edges.len() - 1;
    for (i, x) in table.edges.iter().enumerate() {
        let ink = if i % 5 == 0 || i == last {
            FIFTH
        } else {
            COLUMN
        };
        chart.line(ink, vec![at(*x, top), at(*x, bottom)]);
    }
    for (sides, cell) in table.edges.windows(2).zip(&row.cells) {
        if let Some((fill, sign)) = cell.look() {
            let frame = Frame {
                left: sides[0],
                right: sides[1],
                top,
                bottom,
            };
            chart.band(fill, frame);
            chart.mark(sign, at((sides[0] + sides[1]) / 2.0, middle));
        }
    }
    if let Some(sign) = row.weight.sign() {
        chart.mark(sign, at(table.outcomes.0 - MARK, middle));
    }
}

/// All rows with the headings of their kinds.
pub(super) fn rows<'a>(m: &'a FaultMatrix, table: &Table) -> Vec<Row<'a>> {
    let mut out = Vec::new();
    let mut before: Option<&str> = None;
    for row in &m.rows {
        if before != Some(&*row.kind) {
            out.push(Row::kind(&row.kind, table, false));
        }
        before = Some(&row.kind);
        out.push(Row::fault(row, table));
    }
    out
}
