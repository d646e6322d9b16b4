//! The key: what tints, lines and marks stand for, each with a sample, in rows.

use super::{Chart, EDGE, Fill, Ink, STEP, Sign};
use crate::geometry::{Frame, at};
use crate::label::Align;
use crate::text::{SIZE, width, wrap};

/// Width of a sample, and from it to its words, mm.
const SAMPLE: f64 = 8.0;
const NEAR: f64 = 1.5;
/// From one entry to the next, mm.
const BETWEEN: f64 = 6.0;
/// From one row to the next, mm.
const ROW: f64 = STEP + 1.0;
/// Free above and below, mm.
const AIR: f64 = 1.8;

/// What a sample shows.
#[derive(Clone, Copy)]
pub(crate) enum Sample {
    Box(Fill),
    Line(Ink),
    Mark(Sign),
    /// A mark on a tint, as in a table.
    Cell(Fill, Sign),
}

/// An entry with the place of its sample's left upper corner, from the key's.
struct Entry {
    sample: Sample,
    lines: Vec<String>,
    at: (f64, f64),
}

/// The key.
pub(crate) struct Key {
    entries: Vec<Entry>,
    tall: f64,
}

impl Key {
    /// Of these samples with their words, so wide.
    pub fn of(wanted: Vec<(Sample, String)>, room: f64) -> Self {
        let mut key = Self {
            entries: Vec::new(),
            tall: 0.0,
        };
        let mut x = 0.0;
        for (sample, text) in wanted {
            let lines = wrap(&text, SIZE, room - SAMPLE - NEAR);
            let widest = lines.iter().map(|l| width(l, SIZE)).fold(0.0, f64::max);
            let wide = SAMPLE + NEAR + widest;
            if x > 0.0 && x + wide > room {
                (x, key.tall) = (0.0, key.tall + ROW);
            }
            let (at, more) = ((x, key.tall), lines.len().max(1) - 1);
            key.entries.push(Entry { sample, lines, at });
            x += wide + BETWEEN;
            if more > 0 {
                (x, key.tall) = (0.0, key.tall + ROW + more as f64 * STEP);
            }
        }
        if x > 0.0 {
            key.tall += ROW;
        }
        key
    }

    /// How tall it is, mm; nothing where nothing is explained.
    pub fn height(&self) -> f64 {
        if self.entries.is_empty() {
            return 0.0;
        }
        self.tall + 2.0 * AIR
    }

    /// Puts it with its upper left corner here.
    pub fn place(&self, chart: &mut Chart, (left, top): (f64, f64)) {
        for entry in &self.entries {
            let (x, y) = (left + entry.at.0, top + AIR + entry.at.1);
            sample(chart, entry.sample, (x, y + 1.8));
            chart.words(&entry.lines, (x + SAMPLE + NEAR, y), Align::Start);
        }
    }
}

/// Draws a sample whose left middle is here.
fn sample(chart: &mut Chart, sample: Sample, (x, y): (f64, f64)) {
    let frame = |half: f64| Frame::around(at(x, y - half), at(x + SAMPLE, y + half));
    let middle = at(x + SAMPLE / 2.0, y);
    match sample {
        Sample::Box(fill) if fill.over => chart.band(fill, frame(1.1)),
        Sample::Box(fill) => {
            chart.band(fill, frame(1.6));
            chart.edge(EDGE, frame(1.6));
        }
        Sample::Line(ink) => chart.line(ink, vec![at(x, y), at(x + SAMPLE, y)]),
        Sample::Mark(sign) => chart.mark(sign, middle),
        Sample::Cell(fill, sign) => {
            chart.band(fill, frame(1.6));
            chart.mark(sign, middle);
        }
    }
}
