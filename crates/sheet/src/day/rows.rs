//! The timetable below the plots: one row a circuit, with a bar for as long as it is switched on.

use super::ON;
use crate::chart::{Chart, GRID, Mark, Scale, Sign, block};
use crate::geometry::{Frame, at};
use crate::label::Align;
use crate::text::{SIZE, width, wrap};
use study::Day;

/// Half the height of a bar, mm.
const BAR: f64 = 1.1;
/// A bar is at least this wide: what is on for seconds is seen, mm.
const SHORTEST: f64 = 0.5;
/// Free above and below a row's words, mm.
const AIR: f64 = 0.5;
/// The names of circuits keep to this width, mm.
const MOST: f64 = 44.0;
/// From a name to the timetable, mm.
pub(super) const NEAR: f64 = 2.0;

/// A circuit that is on in some part.
struct Row {
    lines: Vec<String>,
    /// Hours from and to.
    on: Vec<(f64, f64)>,
    /// Hours at which its cut-out let go.
    cut_out: Vec<f64>,
}

impl Row {
    fn height(&self) -> f64 {
        block(self.lines.len()) + 2.0 * AIR
    }
}

/// All rows, in the order in which their circuits come on.
pub(super) struct Rows(Vec<Row>);

impl Rows {
    /// Of a day.
    pub fn of(day: &Day) -> Self {
        let mut names: Vec<&String> = Vec::new();
        let on = day.parts.iter().flat_map(|p| &p.on);
        // A circuit that no switch turns on may be cut out too.
        for name in on.chain(day.cut_out.iter().map(|(_, name)| name)) {
            if !names.contains(&name) {
                names.push(name);
            }
        }
        Self(names.into_iter().map(|name| row(day, name)).collect())
    }

    /// How much room the names need beside the timetable, mm.
    pub fn gutter(&self) -> f64 {
        let lines = self.0.iter().flat_map(|r| &r.lines);
        lines.map(|l| width(l, SIZE)).fold(0.0, f64::max) + NEAR
    }

    /// How tall it is, mm.
    pub fn height(&self) -> f64 {
        self.0.iter().map(Row::height).sum()
    }

    /// Puts it with its top at `top`.
    pub fn place(&self, chart: &mut Chart, hours: &Scale, top: f64) {
        let mut y = top;
        for row in &self.0 {
            let middle = y + row.height() / 2.0;
            let words = (hours.start - NEAR, y + AIR);
            chart.words(&row.lines, words, Align::End);
            for (from, to) in &row.on {
                let left = hours.at(*from).min(hours.end - SHORTEST);
                let frame = Frame {
                    left,
                    right: hours.at(*to).max(left + SHORTEST),
                    top: middle - BAR,
                    bottom: middle + BAR,
                };
                chart.band(ON, frame);
            }
            let mark = |hour: &f64| Mark {
                sign: Sign::Diamond,
                at: at(hours.at(*hour), middle),
            };
            chart.marks.extend(row.cut_out.iter().map(mark));
            y += row.height();
            if y < top + self.height() - 0.01 {
                chart.line(GRID, vec![at(hours.start, y), at(hours.end, y)]);
            }
        }
    }
}

fn row(day: &Day, name: &String) -> Row {
    let mut on: Vec<(f64, f64)> = Vec::new();
    for part in day.parts.iter().filter(|p| p.on.contains(name)) {
        match on.last_mut() {
            Some((_, to)) if *to == part.from_h => *to = part.to_h,
            _ => on.push((part.from_h, part.to_h)),
        }
    }
    let mine = day.cut_out.iter().filter(|(_, n)| n == name);
    Row {
        lines: wrap(name, SIZE, MOST),
        on,
        cut_out: mine.map(|(hour, _)| *hour).collect(),
    }
}
