//! Where everything stands. Takes blocks of columns and the words for them, gives one [`Layout`] a sheet:
//! lines, symbols and labels with their places, so that overlaps can be found before anything is drawn.

mod cells;
mod demand;
mod ends;
mod heads;
mod heights;
mod outlines;
mod page;
mod panel;
mod piece;
mod rails;
mod rows;
mod shapes;
mod strip;
mod wires;
mod words;

pub(crate) use crate::geometry::border;
pub(crate) use crate::label::{Align, BOX_ROOM, Label};
pub(crate) use page::layouts;
pub(crate) use words::Words;

use super::symbol::Shape;
use crate::geometry::{Frame, Point};
use loom::Colour;

/// The part that a name speaks of: a pin's begins with its part's.
pub(crate) fn part_of(name: &str) -> &str {
    name.split(':').next().unwrap_or(name)
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
    /// Around what is in one place, broken.
    Place,
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
            Self::Place | Self::Rule { thick: false } => 0.25,
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

impl Layout {
    /// The part of the sheet in which the circuits stand.
    pub fn circuits(&self) -> Frame {
        let border = border(self.width, self.height);
        Frame {
            right: border.right - panel::PANEL,
            ..border
        }
    }
}
