//! How wide the columns are and on which sheet they fit: the smallest that holds them. What is left over goes to the
//! words of the rows, then to the columns.

use super::FaultMatrix;
use crate::chart::{AIR, Chart, Upright, block, card};
use crate::geometry::{Frame, at, border};
use crate::label::Align;
use crate::text::{SIZE, width, wrap};

/// Height of a full card, and sheet sizes beyond it, mm: A4 upright and across, A3 across.
const CARD: f64 = 230.0;
const SIZES: [(f64, f64); 3] = [(210.0, 297.0), (297.0, 210.0), (420.0, 297.0)];
/// Height of a sheet made wider, mm.
const TALL: f64 = 297.0;
/// Headings are at most this tall, mm; longer ones take two lines and more.
const TALLEST: f64 = 50.0;
/// Free beside a heading's words, above and below, mm.
const BESIDE: f64 = 0.6;
const ABOVE: f64 = 1.0;
/// From words to the columns beside them, mm.
const NEAR: f64 = 1.5;
/// Words of rows and of outcomes are broken at this width where there is no more room, mm.
const NAMES: f64 = 36.0;
const OUTCOMES: f64 = 25.0;
/// They are never wider than this, mm.
const WIDEST: f64 = 80.0;
/// Room for the mark of a weight, mm.
const MARK: f64 = 4.6;
/// A column is made wider by so much at most, mm.
const MORE: f64 = 3.0;
/// What stands above the rows' words and above the outcomes.
const FAILS: &str = "what fails";
const OUTCOME: &str = "what comes of it";

/// The columns in their places.
pub(super) struct Table {
    pub size: (f64, f64),
    pub border: Frame,
    /// Where the rows' words may end, from the border's inside, mm.
    pub names: f64,
    /// Where each column begins, and the last ends.
    pub edges: Vec<f64>,
    /// Where the words of the outcomes begin, and how wide they may be.
    pub outcomes: (f64, f64),
    /// Whether its sheets end where the rows do.
    pub card: bool,
    headings: Vec<Vec<String>>,
}

impl Table {
    /// Of a matrix.
    pub fn of(m: &FaultMatrix) -> Self {
        let headings: Vec<Vec<String>> = m.columns.iter().map(|c| wrap(c, SIZE, TALLEST)).collect();
        let wide: Vec<f64> = headings
            .iter()
            .map(|h| block(h.len()) + 2.0 * BESIDE)
            .collect();
        let columns: f64 = wide.iter().sum();
        let names = widest(m.rows.iter().map(|r| &r.at), FAILS);
        let outcomes = widest(m.rows.iter().map(|r| &r.outcome), OUTCOME);
        let fixed = 2.0 * AIR + 2.0 * NEAR + MARK + columns;
        let least = fixed + names.min(NAMES) + outcomes.min(OUTCOMES);
        let (size, border) = sheet(least);
        let mut spare = border.right - border.left - least;
        let mut grown = |now: f64, most: f64| {
            let more = (most - now).clamp(0.0, spare.max(0.0));
            spare -= more;
            now + more
        };
        let names = grown(names.min(NAMES), names);
        let outcomes = grown(outcomes.min(OUTCOMES), outcomes);
        let more = grown(0.0, MORE * wide.len() as f64) / wide.len().max(1) as f64;
        let mut edges = vec![border.left + AIR + names + NEAR];
        for w in &wide {
            edges.push(edges[edges.len() - 1] + w + more);
        }
        let after = edges[edges.len() - 1] + NEAR + MARK;
        Self {
            size,
            border,
            names,
            edges,
            outcomes: (after, outcomes),
            card: size.0 == card::WIDTH,
            headings,
        }
    }

    /// How tall the headings are, mm.
    pub fn head(&self) -> f64 {
        let tall = self.headings.iter().flatten().map(|l| width(l, SIZE));
        let words = [self.corner().len(), self.last().len()].map(block);
        tall.chain(words).fold(0.0, f64::max) + 2.0 * ABOVE
    }

    fn corner(&self) -> Vec<String> {
        wrap(FAILS, SIZE, self.names)
    }

    fn last(&self) -> Vec<String> {
        wrap(OUTCOME, SIZE, self.outcomes.1)
    }

    /// Puts the headings above rows whose top is `bottom`.
    pub fn place(&self, chart: &mut Chart, bottom: f64) {
        let foot = bottom - ABOVE;
        let corner = self.corner();
        let top = foot - block(corner.len());
        chart.words(&corner, (self.border.left + AIR, top), Align::Start);
        let last = self.last();
        let top = foot - block(last.len());
        chart.words(&last, (self.outcomes.0, top), Align::Start);
        for (i, lines) in self.headings.iter().enumerate() {
            let middle = (self.edges[i] + self.edges[i + 1]) / 2.0;
            let left = middle - block(lines.len()) / 2.0;
            for (n, line) in lines.iter().enumerate() {
                chart.uprights.push(Upright {
                    text: line.clone(),
                    at: at(left + n as f64 * crate::chart::STEP, foot),
                });
            }
        }
    }
}

/// The widest of some words, which is never more than so much, and of the words above them the widest.
fn widest<'a>(all: impl Iterator<Item = &'a String>, above: &str) -> f64 {
    let above = above.split(' ').map(|w| width(w, SIZE));
    let all = all.map(|t| width(t, SIZE).min(WIDEST));
    all.chain(above).fold(0.0, f64::max)
}

/// The smallest sheet with room for a table so wide.
fn sheet(least: f64) -> ((f64, f64), Frame) {
    let small = card::border(CARD);
    if small.right - small.left >= least {
        return (card::size(small), small);
    }
    let bordered = SIZES.map(|(w, h)| ((w, h), border(w, h)));
    let fits = |(_, b): &((f64, f64), Frame)| b.right - b.left >= least;
    bordered.into_iter().find(fits).unwrap_or_else(|| {
        let around = border(0.0, 0.0);
        let size = (least + around.left - around.right, TALL);
        (size, border(size.0, size.1))
    })
}
