//! A part that is not taken apart, such as a radio or a controller: a box with the word for it.

use super::{Extent, Pen};
use crate::text::{width, wrap};

/// Size of the words, mm.
const SIZE: f64 = 3.0;
/// The words keep to this width, mm, so that the box is no wider than a column's labels.
const MOST: f64 = 20.0;
/// Length of each lead, mm: a terminal mark stands beside it.
const LEAD: f64 = 4.0;

/// The lines in the box.
#[derive(Clone, Debug, PartialEq)]
pub(crate) struct Words(Vec<String>);

impl Words {
    /// Breaks a word or two to fit the box.
    pub fn new(text: &str) -> Self {
        Self(wrap(text, SIZE, MOST))
    }

    fn half(&self) -> (f64, f64) {
        let widest = self.0.iter().map(|l| width(l, SIZE)).fold(0.0, f64::max);
        let tall = self.0.len() as f64 * SIZE * 1.25;
        ((widest / 2.0 + 1.5).max(5.0), (tall / 2.0 + 1.0).max(4.0))
    }

    pub(super) fn extent(&self) -> Extent {
        let (wide, tall) = self.half();
        Extent::even(tall + LEAD, wide)
    }

    pub(super) fn draw(&self, pen: &mut Pen) {
        let (wide, tall) = self.half();
        pen.line(&[(0.0, -tall - LEAD), (0.0, -tall)]);
        pen.line(&[(0.0, tall), (0.0, tall + LEAD)]);
        pen.rect((0.0, 0.0), (wide, tall), false);
        let first = -(self.0.len() as f64 - 1.0) * SIZE * 0.625 + SIZE * 0.36;
        for (i, line) in self.0.iter().enumerate() {
            pen.word((0.0, first + i as f64 * SIZE * 1.25), SIZE, line);
        }
    }
}
