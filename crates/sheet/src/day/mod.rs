//! The chart of a day of use: the battery's charge and the voltage at its posts over the hours, behind them
//! the parts of the day, below them what is on. Takes the day as the study stepped through it, gives one sheet.
//!
//! Everything stands in its place before anything is drawn, as in the circuit diagram.

mod compose;
mod curve;
mod draw;
mod key;
mod list;
mod names;
mod plots;
mod rows;
mod scale;
mod spread;
mod told;
mod upright;

#[cfg(test)]
mod tests;

use crate::geometry::{Frame, Point};
use crate::label::{Align, Label};
use crate::text::{ASCENT, DESCENT, LEADING, SIZE};
use crate::{Sheet, Title};
use plan::SupplyState;
use upright::Upright;

/// The chart of a day; `reserve` is the charge below which the battery is not to fall, 0 to 1.
pub fn day(day: &study::Day, reserve: f64, title: &Title) -> Sheet {
    draw::sheet(&compose::chart(day, reserve, title), title)
}

/// From one baseline to the next, mm.
const STEP: f64 = SIZE * LEADING;

/// A filled box.
#[derive(Clone, Debug, PartialEq)]
struct Band {
    frame: Frame,
    fill: Fill,
}

/// What a box is filled for.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Fill {
    /// A part of the day, by what the supply does.
    Supply(SupplyState),
    /// A circuit that is switched on.
    On,
}

/// What a line is drawn for.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Ink {
    /// Charge of the battery.
    Charge,
    /// Voltage at its posts.
    Volts,
    /// The charge that is to be left.
    Reserve,
    /// A tick of a scale across a plot.
    Grid,
    /// Where a part of the day follows one of the same tint.
    Part,
    /// The edge of a plot.
    Edge,
    /// From a name to its part of the day.
    Leader,
    /// A ruling of the sheet; thick ones frame it.
    Rule { thick: bool },
}

/// A line.
#[derive(Clone, Debug, PartialEq)]
struct Line {
    ink: Ink,
    points: Vec<Point>,
}

/// What a mark stands for.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Sign {
    /// The engine is started below the reserve.
    NoStart,
    /// A cut-out let go.
    CutOut,
}

/// How far a mark reaches from its middle, mm.
const REACH: f64 = 1.6;

/// A mark.
#[derive(Clone, Copy, Debug, PartialEq)]
struct Mark {
    sign: Sign,
    at: Point,
}

/// One sheet with everything in its place, in the order in which it is drawn.
#[derive(Clone, Debug, Default)]
struct Chart {
    width: f64,
    height: f64,
    bands: Vec<Band>,
    lines: Vec<Line>,
    marks: Vec<Mark>,
    labels: Vec<Label>,
    /// Words that run upwards.
    uprights: Vec<Upright>,
    /// What is on it, for screen readers.
    told: String,
}

impl Chart {
    fn line(&mut self, ink: Ink, points: Vec<Point>) {
        self.lines.push(Line { ink, points });
    }

    fn edge(&mut self, ink: Ink, f: Frame) {
        let at = crate::geometry::at;
        let corners = [
            at(f.left, f.top),
            at(f.right, f.top),
            at(f.right, f.bottom),
            at(f.left, f.bottom),
            at(f.left, f.top),
        ];
        self.line(ink, corners.to_vec());
    }

    /// Lines of words, the first with its top at `top`.
    fn words(&mut self, lines: &[String], (x, top): (f64, f64), align: Align) {
        for (i, line) in lines.iter().enumerate() {
            let place = crate::geometry::at(x, top + ASCENT * SIZE + i as f64 * STEP);
            self.labels
                .push(Label::new(line.clone(), SIZE, place, align));
        }
    }
}

/// How tall a block of lines is, mm.
fn block(lines: usize) -> f64 {
    (lines.max(1) as f64 - 1.0) * STEP + (ASCENT + DESCENT) * SIZE
}
