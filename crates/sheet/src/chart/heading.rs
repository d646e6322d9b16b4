//! The words at the top of a sheet: what it is about, and below that a sentence.

use super::{Chart, block};
use crate::geometry::at;
use crate::label::{Align, Label};
use crate::text::{ASCENT, LARGE, LEADING, SIZE, wrap, wrap_figures};

/// Free between what it is about and the sentence, and below, mm.
const BETWEEN: f64 = 1.0;
const BELOW: f64 = 2.0;

/// A heading in lines.
pub(crate) struct Heading {
    about: Vec<String>,
    says: Vec<String>,
}

impl Heading {
    /// So wide; either may be empty.
    pub fn new(about: &str, says: &str, room: f64) -> Self {
        Self {
            about: wrap(about, LARGE, room),
            says: wrap_figures(says, SIZE, room),
        }
    }

    fn about_height(&self) -> f64 {
        self.about.len() as f64 * LARGE * LEADING
    }

    /// How tall it is, mm.
    pub fn height(&self) -> f64 {
        let says = match self.says.len() {
            0 => 0.0,
            lines => BETWEEN + block(lines),
        };
        self.about_height() + says + BELOW
    }

    /// Puts it with its upper left corner here.
    pub fn place(&self, chart: &mut Chart, (left, top): (f64, f64)) {
        for (i, line) in self.about.iter().enumerate() {
            let y = top + LARGE * (ASCENT + i as f64 * LEADING);
            chart
                .labels
                .push(Label::new(line.clone(), LARGE, at(left, y), Align::Start));
        }
        let below = top + self.about_height() + BETWEEN;
        chart.words(&self.says, (left, below), Align::Start);
    }
}
