//! The strip above the plots that says what is done in each part of the day: in words where the part is wide
//! enough, by a number where it is not; the list below the chart says what the number stands for.

use super::scale::Scale;
use super::spread::spread;
use super::{Chart, Ink, block};
use crate::geometry::at;
use crate::label::Align;
use crate::text::{SIZE, width, wrap};
use study::DayPart;

/// Words of a part take so many lines at most; what is longer gets a number.
const LINES: usize = 3;
/// Free between two names, mm.
const BETWEEN: f64 = 1.8;
/// Height of the leaders from names to parts, mm.
const LEADERS: f64 = 4.0;
/// From a name to its leader, mm.
const NEAR: f64 = 0.4;

/// The name of one part.
struct Name {
    lines: Vec<String>,
    numbered: bool,
    /// How wide it is, with what is free beside it.
    wide: f64,
    /// From where to where its part reaches.
    band: (f64, f64),
}

/// The names of all parts.
pub(super) struct Strip {
    names: Vec<Name>,
    /// The middles of the names.
    middles: Vec<f64>,
    /// How much wider the chart would have to be for them, mm.
    pub missing: f64,
}

impl Strip {
    /// Of these parts, above a plot with this scale of hours.
    pub fn of(parts: &[DayPart], hours: &Scale) -> Self {
        let room = hours.end - hours.start;
        let named = |words: bool| -> Vec<Name> {
            let each = parts.iter().enumerate();
            each.map(|(i, p)| name(i, p, hours, words)).collect()
        };
        let wide = |names: &[Name]| names.iter().map(|n| n.wide).sum::<f64>();
        let mut names = named(true);
        if wide(&names) > room {
            names = named(false);
        }
        let wanted: Vec<(f64, f64)> = names
            .iter()
            .map(|n| ((n.band.0 + n.band.1) / 2.0, n.wide))
            .collect();
        Self {
            middles: spread(&wanted, (hours.start, hours.end)),
            missing: wide(&names) - room,
            names,
        }
    }

    /// The parts that have only a number, by index.
    pub fn numbered(&self) -> Vec<usize> {
        let numbered = |i: &usize| self.names[*i].numbered;
        (0..self.names.len()).filter(numbered).collect()
    }

    /// How tall it is, mm.
    pub fn height(&self) -> f64 {
        let lines = self.names.iter().map(|n| n.lines.len()).max();
        block(lines.unwrap_or(1)) + LEADERS
    }

    /// Puts it above a plot whose top is `bottom`.
    pub fn place(&self, chart: &mut Chart, bottom: f64) {
        let foot = bottom - LEADERS;
        for (name, middle) in self.names.iter().zip(&self.middles) {
            let lines = name.lines.len();
            chart.words(&name.lines, (*middle, foot - block(lines)), Align::Middle);
            let half = (name.wide - BETWEEN) / 2.0;
            let above = name.band.0 <= middle - half && middle + half <= name.band.1;
            if !above {
                let own = (name.band.0 + name.band.1) / 2.0;
                let points = vec![
                    at(*middle, foot + NEAR),
                    at(*middle, foot + NEAR + 1.0),
                    at(own, bottom),
                ];
                chart.line(Ink::Leader, points);
            }
        }
    }
}

/// The name of a part: its words if they may be and fit, else its number.
fn name(index: usize, part: &DayPart, hours: &Scale, words: bool) -> Name {
    let band = (hours.at(part.from_h), hours.at(part.to_h));
    let room = band.1 - band.0 - BETWEEN;
    let whole = |w: &str| width(w, SIZE) <= room;
    let lines = wrap(&part.what, SIZE, room);
    let fits = part.what.split_whitespace().all(whole) && lines.len() <= LINES;
    let numbered = !(words && fits && !lines.is_empty());
    let lines = if numbered {
        vec![(index + 1).to_string()]
    } else {
        lines
    };
    let widest = lines.iter().map(|l| width(l, SIZE)).fold(0.0, f64::max);
    Name {
        lines,
        numbered,
        wide: widest + BETWEEN,
        band,
    }
}
