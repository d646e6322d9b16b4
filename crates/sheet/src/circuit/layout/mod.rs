//! Where everything stands. Takes blocks of columns and the words for them, gives one [`Layout`] a sheet:
//! lines, symbols and labels with their places, so that overlaps can be found before anything is drawn.

mod cells;
mod demand;
mod ends;
mod heads;
mod heights;
mod page;
mod panel;
mod piece;
mod rails;
mod rows;
mod strip;
mod wires;
mod words;

pub(crate) use page::layouts;
pub(crate) use words::Words;

use super::symbol::Shape;
use crate::geometry::{Frame, Point};
use crate::text::{ASCENT, DESCENT, width};
use loom::Colour;

/// Which end of a text its place is.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Align {
    Start,
    Middle,
    End,
}

/// A text on one line.
#[derive(Clone, Debug, PartialEq)]
pub(crate) struct Label {
    pub text: String,
    /// Font size, mm.
    pub size: f64,
    /// A point of its baseline.
    pub at: Point,
    pub align: Align,
    /// Whether a box stands around it: the number of the column where a way goes on.
    pub boxed: bool,
}

/// From a boxed number to its box, mm.
pub(crate) const BOX_ROOM: f64 = 0.8;

impl Label {
    pub fn new(text: String, size: f64, at: Point, align: Align) -> Self {
        Self {
            text,
            size,
            at,
            align,
            boxed: false,
        }
    }

    /// The box it covers.
    pub fn frame(&self) -> Frame {
        let wide = width(&self.text, self.size);
        let left = match self.align {
            Align::Start => self.at.x,
            Align::Middle => self.at.x - wide / 2.0,
            Align::End => self.at.x - wide,
        };
        let frame = Frame {
            left,
            top: self.at.y - ASCENT * self.size,
            right: left + wide,
            bottom: self.at.y + DESCENT * self.size,
        };
        if self.boxed {
            frame.grown(BOX_ROOM)
        } else {
            frame
        }
    }

    fn moved(&self, by: Point) -> Self {
        let at = Point {
            x: self.at.x + by.x,
            y: self.at.y + by.y,
        };
        Self { at, ..self.clone() }
    }
}

/// What a line is drawn for.
#[derive(Clone, Debug, PartialEq)]
pub(crate) enum Ink {
    /// A laid wire, in its own colour.
    Wire(Colour),
    /// A connection inside a part.
    Inner,
    /// A rail: a feed or a box's bus.
    Rail,
    /// The vehicle's body.
    Body,
    /// A mechanical link, broken.
    Link,
    /// A ruling of the sheet; thick ones frame it.
    Rule { thick: bool },
}

impl Ink {
    /// How wide the line is drawn, mm.
    pub fn width(&self) -> f64 {
        match self {
            Self::Wire(_) => 1.5,
            Self::Inner | Self::Link => super::symbol::THIN,
            Self::Rail => 1.0,
            Self::Body => 0.5,
            Self::Rule { thick: true } => 0.7,
            Self::Rule { thick: false } => 0.25,
        }
    }
}

/// A line of upright and level pieces.
#[derive(Clone, Debug, PartialEq)]
pub(crate) struct Line {
    /// The wire or part that it belongs to.
    pub name: String,
    pub ink: Ink,
    pub points: Vec<Point>,
}

/// A symbol in its place.
#[derive(Clone, Debug, PartialEq)]
pub(crate) struct Symbol {
    /// The part's name, or a pin's.
    pub name: String,
    pub shape: Shape,
    pub at: Point,
}

/// One sheet.
#[derive(Clone, Debug, Default)]
pub(crate) struct Layout {
    pub number: usize,
    pub of: usize,
    pub width: f64,
    pub height: f64,
    pub lines: Vec<Line>,
    pub symbols: Vec<Symbol>,
    pub labels: Vec<Label>,
    /// What is on it, for screen readers.
    pub told: String,
}

/// The edge inside which everything stays: 20 mm on the filing side, 10 mm on the others (ISO 5457).
pub(crate) fn border(width: f64, height: f64) -> Frame {
    Frame {
        left: 20.0,
        top: 10.0,
        right: width - 10.0,
        bottom: height - 10.0,
    }
}
