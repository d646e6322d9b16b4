//! The strip above the plots that says what is done in each part of the day: in words where the part is wide
//! enough, in words that run upwards where it is not, by a number where those would be too tall; the list below the
//! chart says what the number stands for.

use crate::chart::{Chart, LEADER, STEP, Scale, Upright, block, spread};
use crate::geometry::at;
use crate::label::Align;
use crate::text::{SIZE, width, wrap};
use study::DayPart;

/// Words of a part take so many lines at most; what is longer runs upwards.
const LINES: usize = 3;
/// The same of words that run upwards; what is longer gets a number.
const UPRIGHT_LINES: usize = 2;
/// Words that run upwards are at most this tall, mm.
const TALLEST: f64 = 20.0;
/// Free between two names, mm.
const BETWEEN: f64 = 1.8;
/// Height of the leaders from names to parts, mm.
const LEADERS: f64 = 4.0;
/// From a name to its leader, mm.
const NEAR: f64 = 0.4;

/// How names may be told.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Told {
    /// In words, level or upwards.
    Upwards,
    /// In words that run level, else by numbers.
    Level,
    /// By numbers.
    Numbers,
}

/// What stands above a part.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Stands {
    Level,
    Upwards,
    Number,
}

/// The name of one part.
struct Name {
    lines: Vec<String>,
    stands: Stands,
    /// How wide it is, with what is free beside it.
    wide: f64,
    /// From where to where its part reaches.
    band: (f64, f64),
}

impl Name {
    fn tall(&self) -> f64 {
        match self.stands {
            Stands::Upwards => widest(&self.lines),
            _ => block(self.lines.len()),
        }
    }
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
    /// Of these parts, above a plot with this scale of hours, told as `most` allows.
    pub fn of(parts: &[DayPart], hours: &Scale, most: Told) -> Self {
        let room = hours.end - hours.start;
        let named = |told: Told| -> Vec<Name> {
            let each = parts.iter().enumerate();
            each.map(|(i, p)| name(i, p, hours, told)).collect()
        };
        let wide = |names: &[Name]| names.iter().map(|n| n.wide).sum::<f64>();
        let ways = [Told::Upwards, Told::Level, Told::Numbers];
        let allowed = ways.into_iter().skip_while(|told| *told != most);
        let fits = |names: &Vec<Name>| wide(names) <= room;
        let names = allowed.map(named).find(fits);
        let names = names.unwrap_or_else(|| named(Told::Numbers));
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
        let numbered = |i: &usize| self.names[*i].stands == Stands::Number;
        (0..self.names.len()).filter(numbered).collect()
    }

    /// How tall it is, mm.
    pub fn height(&self) -> f64 {
        let tallest = self.names.iter().map(Name::tall);
        tallest.fold(block(1), f64::max) + LEADERS
    }

    /// Puts it above a plot whose top is `bottom`.
    pub fn place(&self, chart: &mut Chart, bottom: f64) {
        let foot = bottom - LEADERS;
        for (name, middle) in self.names.iter().zip(&self.middles) {
            words(chart, name, (*middle, foot));
            let half = (name.wide - BETWEEN) / 2.0;
            let above = name.band.0 <= middle - half && middle + half <= name.band.1;
            if !above {
                let own = (name.band.0 + name.band.1) / 2.0;
                let points = vec![
                    at(*middle, foot + NEAR),
                    at(*middle, foot + NEAR + 1.0),
                    at(own, bottom),
                ];
                chart.line(LEADER, points);
            }
        }
    }
}

/// Puts a name's words with the middle of their foot here.
fn words(chart: &mut Chart, name: &Name, (middle, foot): (f64, f64)) {
    let lines = name.lines.len();
    if name.stands != Stands::Upwards {
        chart.words(&name.lines, (middle, foot - block(lines)), Align::Middle);
        return;
    }
    let left = middle - block(lines) / 2.0;
    for (i, line) in name.lines.iter().enumerate() {
        chart.uprights.push(Upright {
            text: line.clone(),
            at: at(left + i as f64 * STEP, foot),
        });
    }
}

fn widest(lines: &[String]) -> f64 {
    lines.iter().map(|l| width(l, SIZE)).fold(0.0, f64::max)
}

/// The name of a part: its words if they may be and fit, else its number.
fn name(index: usize, part: &DayPart, hours: &Scale, told: Told) -> Name {
    let band = (hours.at(part.from_h), hours.at(part.to_h));
    let in_words = |room: f64, most: usize| -> Option<Vec<String>> {
        let whole = |w: &str| width(w, SIZE) <= room;
        let fits = part.what.split_whitespace().all(whole);
        let lines = wrap(&part.what, SIZE, room);
        (fits && !lines.is_empty() && lines.len() <= most).then_some(lines)
    };
    let level = in_words(band.1 - band.0 - BETWEEN, LINES).filter(|_| told != Told::Numbers);
    let upwards = || in_words(TALLEST, UPRIGHT_LINES).filter(|_| told == Told::Upwards);
    let (lines, stands) = match level {
        Some(lines) => (lines, Stands::Level),
        None => match upwards() {
            Some(lines) => (lines, Stands::Upwards),
            None => (vec![(index + 1).to_string()], Stands::Number),
        },
    };
    let wide = match stands {
        Stands::Upwards => block(lines.len()),
        _ => widest(&lines),
    };
    Name {
        lines,
        stands,
        wide: wide + BETWEEN,
        band,
    }
}
