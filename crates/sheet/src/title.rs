//! The title block of a sheet: what the work is called, the vehicle, the owner, what the sheet shows. Takes
//! the words and a width, gives labels and rules in the lower right corner.

use crate::Title;
use crate::geometry::{Frame, Point, at};
use crate::label::{Align, Label};
use crate::text::{ASCENT, LARGE, LEADING, SIZE, wrap};

/// Free above and below the words, mm.
const AIR: f64 = 1.5;
/// Free at the left and the right of the words, mm.
const SIDE: f64 = 2.0;
/// Height of the last row: what the sheet shows, mm.
const LAST: f64 = SIZE * LEADING + 2.0 * AIR;

/// A title block.
pub(crate) struct TitleBlock {
    /// From the top: text and size.
    lines: Vec<(String, f64)>,
    /// What the sheet shows.
    shows: &'static str,
    /// Which sheet it is; empty where there is only one.
    number: String,
}

/// A rule of a sheet: thick ones frame it.
pub(crate) struct Rule {
    pub thick: bool,
    pub points: Vec<Point>,
}

impl TitleBlock {
    /// The block for a sheet, this wide.
    pub fn new(title: &Title, width: f64, shows: &'static str, number: String) -> Self {
        let most = width - 2.0 * SIDE - 1.0;
        let owner = title.owner.as_ref().map(|o| format!("Owner: {o}"));
        let small = [Some(title.vehicle.clone()), owner];
        let mut lines: Vec<(String, f64)> = wrap(&title.title, LARGE, most)
            .into_iter()
            .map(|l| (l, LARGE))
            .collect();
        for text in small.into_iter().flatten() {
            lines.extend(wrap(&text, SIZE, most).into_iter().map(|l| (l, SIZE)));
        }
        Self {
            lines,
            shows,
            number,
        }
    }

    /// How tall it is, mm.
    pub fn height(&self) -> f64 {
        self.lines.iter().map(|(_, s)| s * LEADING).sum::<f64>() + 2.0 * AIR + LAST
    }

    /// Its labels and rules, in the lower right corner of a box as wide as it is.
    pub fn place(&self, within: Frame) -> (Vec<Label>, Vec<Rule>) {
        let top = within.bottom - self.height();
        let (left, right) = (within.left + SIDE, within.right - SIDE);
        let mut labels = Vec::new();
        let mut y = top + AIR;
        for (line, size) in &self.lines {
            let place = at(left, y + size * ASCENT);
            labels.push(Label::new(line.clone(), *size, place, Align::Start));
            y += size * LEADING;
        }
        let y = within.bottom - LAST;
        let base = y + AIR + SIZE * ASCENT;
        let mut last = |text: &str, x: f64, align| {
            labels.push(Label::new(text.to_owned(), SIZE, at(x, base), align));
        };
        last(self.shows, left, Align::Start);
        if !self.number.is_empty() {
            last(&self.number, right, Align::End);
        }
        let frame = vec![
            at(within.left, within.bottom),
            at(within.left, top),
            at(within.right, top),
        ];
        let row = vec![at(within.left, y), at(within.right, y)];
        let rule = |(thick, points)| Rule { thick, points };
        let rules = [(true, frame), (false, row)].into_iter().map(rule);
        (labels, rules.collect())
    }
}
