//! A text that runs upwards, read from the right: the name of a part of the day that is narrower than its words.

use crate::geometry::{Frame, Point};
use crate::svg::{Svg, number};
use crate::text::{ASCENT, DESCENT, SIZE, width};

/// A text on one line that runs upwards from its place.
#[derive(Clone, Debug, PartialEq)]
pub(crate) struct Upright {
    pub text: String,
    /// The lower left corner of the box that it covers.
    pub at: Point,
}

impl Upright {
    /// The box it covers.
    pub fn frame(&self) -> Frame {
        Frame {
            left: self.at.x,
            right: self.at.x + (ASCENT + DESCENT) * SIZE,
            top: self.at.y - width(&self.text, SIZE),
            bottom: self.at.y,
        }
    }

    /// Draws it.
    pub fn draw(&self, svg: &mut Svg) {
        let (x, y) = (self.at.x + ASCENT * SIZE, self.at.y);
        let attributes = [
            ("x", number(x)),
            ("y", number(y)),
            ("font-size", number(SIZE)),
            (
                "transform",
                format!("rotate(-90 {} {})", number(x), number(y)),
            ),
        ];
        svg.text("text", &attributes, &self.text);
    }
}
