//! The key: what tints, lines and marks stand for, each with a sample; marks with when and what.

use super::told::clock;
use super::{Band, Chart, Fill, Ink, Mark, STEP, Sign};
use crate::geometry::{Frame, at};
use crate::label::Align;
use crate::text::{SIZE, width, wrap};
use plan::SupplyState;
use study::Day;

/// Width of a sample, and from it to its words, mm.
const SAMPLE: f64 = 8.0;
const NEAR: f64 = 1.5;
/// From one entry to the next, mm.
const BETWEEN: f64 = 6.0;
/// From one row to the next, mm.
const ROW: f64 = STEP + 1.0;
/// Free above and below, mm.
const AIR: f64 = 1.8;
/// So many times are told of one thing; of more, how many.
const TIMES: usize = 3;

/// What a sample shows.
#[derive(Clone, Copy)]
enum Sample {
    Box(Fill),
    Line(Ink),
    Mark(Sign),
}

/// An entry with the place of its sample's left upper corner, from the key's.
struct Entry {
    sample: Sample,
    lines: Vec<String>,
    at: (f64, f64),
}

/// The key.
pub(super) struct Key {
    entries: Vec<Entry>,
    tall: f64,
}

impl Key {
    /// Of a day's chart, so wide.
    pub fn of(day: &Day, room: f64) -> Self {
        let mut key = Self {
            entries: Vec::new(),
            tall: 0.0,
        };
        let mut x = 0.0;
        for (sample, text) in wanted(day) {
            let lines = wrap(&text, SIZE, room - SAMPLE - NEAR);
            let widest = lines.iter().map(|l| width(l, SIZE)).fold(0.0, f64::max);
            let wide = SAMPLE + NEAR + widest;
            if x > 0.0 && x + wide > room {
                (x, key.tall) = (0.0, key.tall + ROW);
            }
            let (at, more) = ((x, key.tall), lines.len().max(1) - 1);
            key.entries.push(Entry { sample, lines, at });
            x += wide + BETWEEN;
            if more > 0 {
                (x, key.tall) = (0.0, key.tall + ROW + more as f64 * STEP);
            }
        }
        if x > 0.0 {
            key.tall += ROW;
        }
        key
    }

    /// How tall it is, mm.
    pub fn height(&self) -> f64 {
        self.tall + 2.0 * AIR
    }

    /// Puts it with its upper left corner here.
    pub fn place(&self, chart: &mut Chart, (left, top): (f64, f64)) {
        for entry in &self.entries {
            let (x, y) = (left + entry.at.0, top + AIR + entry.at.1);
            sample(chart, entry.sample, (x, y + 1.8));
            chart.words(&entry.lines, (x + SAMPLE + NEAR, y), Align::Start);
        }
    }
}

/// Draws a sample whose left middle is here.
fn sample(chart: &mut Chart, sample: Sample, (x, y): (f64, f64)) {
    let frame = |half: f64| Frame::around(at(x, y - half), at(x + SAMPLE, y + half));
    match sample {
        Sample::Box(fill) => {
            let half = if fill == Fill::On { 1.1 } else { 1.6 };
            chart.bands.push(Band {
                frame: frame(half),
                fill,
            });
            if fill != Fill::On {
                chart.edge(Ink::Edge, frame(half));
            }
        }
        Sample::Line(ink) => chart.line(ink, vec![at(x, y), at(x + SAMPLE, y)]),
        Sample::Mark(sign) => {
            let at = at(x + SAMPLE / 2.0, y);
            chart.marks.push(Mark { sign, at });
        }
    }
}

/// What there is to explain.
fn wanted(day: &Day) -> Vec<(Sample, String)> {
    let there = |s: &SupplyState| day.parts.iter().any(|p| p.supply == *s);
    let state = |s: SupplyState| (Sample::Box(Fill::Supply(s)), s.word().to_owned());
    let mut out: Vec<(Sample, String)> = SupplyState::ALL
        .into_iter()
        .filter(there)
        .map(state)
        .collect();
    let lines = [
        (Ink::Charge, "charge"),
        (Ink::Reserve, "must stay above"),
        (Ink::Volts, "voltage"),
    ];
    out.extend(lines.map(|(ink, word)| (Sample::Line(ink), word.to_owned())));
    if day.parts.iter().any(|p| !p.on.is_empty()) {
        out.push((Sample::Box(Fill::On), "on".to_owned()));
    }
    if !day.no_start.is_empty() {
        let said = format!("engine started below the reserve: {}", times(&day.no_start));
        out.push((Sample::Mark(Sign::NoStart), said));
    }
    if !day.cut_out.is_empty() {
        let said = format!("cut-out let go: {}", times(&day.cut_out));
        out.push((Sample::Mark(Sign::CutOut), said));
    }
    out
}

/// Hours with what happened then, by what: “fridge at 6 h 10 min, 9 h; …”.
pub(super) fn times(events: &[(f64, String)]) -> String {
    let mut by_what: Vec<(&String, Vec<f64>)> = Vec::new();
    for (hour, what) in events {
        match by_what.iter_mut().find(|(w, _)| *w == what) {
            Some((_, hours)) => hours.push(*hour),
            None => by_what.push((what, vec![*hour])),
        }
    }
    let told = |(what, hours): &(&String, Vec<f64>)| {
        let said = hours.iter().take(TIMES);
        let said: Vec<String> = said.map(|h| clock(*h)).collect();
        let more = match hours.len().saturating_sub(TIMES) {
            0 => String::new(),
            n => format!(" and {n} times more"),
        };
        format!("{what} at {}{more}", said.join(", "))
    };
    by_what.iter().map(told).collect::<Vec<_>>().join("; ")
}
