//! What all charts are made of: boxes, areas, lines, marks and words, each in its place on one sheet, with the ink
//! that it is drawn in. Takes nothing of what is charted; [`draw`] makes SVG of it.

pub(crate) mod card;
#[cfg(test)]
pub(crate) mod check;
pub(crate) mod clip;
mod curve;
mod draw;
mod foot;
mod heading;
mod key;
mod log;
mod scale;
mod spread;
mod stem;
mod strip;
pub(crate) mod ticks;
mod upright;

pub(crate) use curve::simplified;
pub(crate) use foot::Foot;
pub(crate) use heading::Heading;
pub(crate) use key::{Key, Sample};
pub(crate) use log::{Log, current_steps, time, time_steps, widened};
pub(crate) use scale::{Scale, decimal, span};
pub(crate) use spread::spread;
pub(crate) use stem::stem;
pub(crate) use strip::Strip;
pub(crate) use upright::Upright;

use crate::Sheet;
use crate::geometry::{Frame, Point, at};
use crate::label::{Align, Label};
use crate::text::{ASCENT, DESCENT, LEADING, SIZE};
use crate::title::Rule;

/// From one baseline to the next, mm.
pub(crate) const STEP: f64 = SIZE * LEADING;
/// Free inside the border of a sheet, mm.
pub(crate) const AIR: f64 = 2.0;

/// How a box or an area is filled.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) struct Fill {
    pub colour: &'static str,
    /// Whether it hides the grid.
    pub over: bool,
}

impl Fill {
    /// A tint that the grid lies over.
    pub const fn tint(colour: &'static str) -> Self {
        let over = false;
        Self { colour, over }
    }

    /// The same, for words inside a plot: the grid does not run through them.
    pub const fn tag(self) -> Self {
        Self { over: true, ..self }
    }
}

/// How a line is drawn.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) struct Ink {
    colour: &'static str,
    /// mm.
    pub width: f64,
    pub dash: Option<&'static str>,
    /// Whether it lies over what hides the grid: a curve does.
    pub over: bool,
}

impl Ink {
    /// A ruling: part of the grid, of an edge, of the sheet.
    pub const fn rule(colour: &'static str, width: f64) -> Self {
        Self {
            colour,
            width,
            dash: None,
            over: false,
        }
    }

    /// A curve: what the chart is for.
    pub const fn curve(colour: &'static str, width: f64) -> Self {
        let rule = Self::rule(colour, width);
        Self { over: true, ..rule }
    }

    /// The same, broken.
    pub const fn dashed(self, dash: &'static str) -> Self {
        Self {
            dash: Some(dash),
            ..self
        }
    }
}

/// A tick of a scale across a plot.
pub(crate) const GRID: Ink = Ink::rule("#8a8f98", 0.15);
/// The edge of a plot.
pub(crate) const EDGE: Ink = Ink::rule("#333333", 0.3);
/// From words to what they are about.
pub(crate) const LEADER: Ink = Ink::rule("#555555", 0.2);
/// A ruling of the sheet that frames it.
pub(crate) const THICK: Ink = Ink::rule("black", 0.7);
/// Any other ruling of the sheet.
pub(crate) const THIN: Ink = Ink::rule("#777777", 0.25);

/// A filled box.
#[derive(Clone, Debug, PartialEq)]
pub(crate) struct Band {
    pub frame: Frame,
    pub fill: Fill,
}

/// A filled area of any shape.
#[derive(Clone, Debug, PartialEq)]
pub(crate) struct Area {
    pub points: Vec<Point>,
    pub fill: Fill,
}

/// A line.
#[derive(Clone, Debug, PartialEq)]
pub(crate) struct Line {
    pub ink: Ink,
    pub points: Vec<Point>,
}

/// The shape of a mark.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Sign {
    CrossedRing,
    Diamond,
    Ring,
    Disc,
    Cross,
    Square,
    HalfSquare,
    FullSquare,
}

/// How far a mark reaches from its middle, mm.
pub(crate) const REACH: f64 = 1.6;

/// A mark.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) struct Mark {
    pub sign: Sign,
    pub at: Point,
}

/// One sheet with everything in its place, in the order in which it is drawn.
#[derive(Clone, Debug)]
pub(crate) struct Chart {
    pub width: f64,
    pub height: f64,
    /// Inside this everything stays.
    pub border: Frame,
    pub bands: Vec<Band>,
    pub areas: Vec<Area>,
    pub lines: Vec<Line>,
    pub marks: Vec<Mark>,
    pub labels: Vec<Label>,
    /// Words that run upwards.
    pub uprights: Vec<Upright>,
    /// What is on it, for screen readers.
    pub told: String,
}

impl Chart {
    /// An empty sheet of this size.
    pub fn new((width, height): (f64, f64), border: Frame, told: String) -> Self {
        Self {
            width,
            height,
            border,
            bands: Vec::new(),
            areas: Vec::new(),
            lines: Vec::new(),
            marks: Vec::new(),
            labels: Vec::new(),
            uprights: Vec::new(),
            told,
        }
    }

    pub fn line(&mut self, ink: Ink, points: Vec<Point>) {
        self.lines.push(Line { ink, points });
    }

    pub fn edge(&mut self, ink: Ink, f: Frame) {
        self.line(ink, f.ring());
    }

    pub fn band(&mut self, fill: Fill, frame: Frame) {
        self.bands.push(Band { frame, fill });
    }

    pub fn mark(&mut self, sign: Sign, at: Point) {
        self.marks.push(Mark { sign, at });
    }

    /// Lines of words, the first with its top at `top`.
    pub fn words(&mut self, lines: &[String], (x, top): (f64, f64), align: Align) {
        for (i, line) in lines.iter().enumerate() {
            let place = at(x, top + ASCENT * SIZE + i as f64 * STEP);
            self.labels
                .push(Label::new(line.clone(), SIZE, place, align));
        }
    }

    /// Rulings of a title block.
    fn rules(&mut self, rules: Vec<Rule>) {
        for Rule { thick, points } in rules {
            self.line(if thick { THICK } else { THIN }, points);
        }
    }

    /// Draws it.
    pub fn sheet(&self, name: &str, title: String, heading: &str) -> Sheet {
        draw::sheet(self, name, title, heading)
    }
}

/// How tall a block of lines is, mm.
pub(crate) fn block(lines: usize) -> f64 {
    (lines.max(1) as f64 - 1.0) * STEP + (ASCENT + DESCENT) * SIZE
}
