//! A text on one line in its place. Takes words, size and a point of the baseline, gives the box that they
//! cover, so that overlaps can be found before anything is drawn.

use crate::geometry::{Frame, Point};
use crate::svg::{Svg, number};
use crate::text::{ASCENT, DESCENT, width};

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
    /// The wire or part that it speaks of; empty where it is of none.
    pub of: String,
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
            of: String::new(),
        }
    }

    /// Of a wire or part.
    pub fn of(self, name: &str) -> Self {
        let of = name.to_owned();
        Self { of, ..self }
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

    /// The same text, moved.
    pub fn moved(&self, by: Point) -> Self {
        let at = Point {
            x: self.at.x + by.x,
            y: self.at.y + by.y,
        };
        Self { at, ..self.clone() }
    }

    /// Draws it, with its box if it has one.
    pub fn draw(&self, svg: &mut Svg) {
        if self.boxed {
            let f = self.frame().grown(-BOX_ROOM / 2.0);
            let attributes = [
                ("x", number(f.left)),
                ("y", number(f.top)),
                ("width", number(f.right - f.left)),
                ("height", number(f.bottom - f.top)),
                ("fill", "none".to_owned()),
                ("stroke", "black".to_owned()),
                ("stroke-width", number(0.25)),
            ];
            svg.empty("rect", &attributes);
        }
        let mut attributes = vec![
            ("x", number(self.at.x)),
            ("y", number(self.at.y)),
            ("font-size", number(self.size)),
        ];
        match self.align {
            Align::Start => {}
            Align::Middle => attributes.push(("text-anchor", "middle".to_owned())),
            Align::End => attributes.push(("text-anchor", "end".to_owned())),
        }
        svg.text("text", &attributes, &self.text);
    }
}
