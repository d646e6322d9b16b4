//! What happens, above the plots: in words where they fit, else by numbers that a list below the plots explains.

use super::FaultInTime;
use super::axis::Axis;
use crate::chart::{Strip, time};
use crate::text::{SIZE, wrap_figures};

/// Words above the plots take so many lines at most.
const LINES: usize = 3;
/// Where numbers by themselves have no room, those so near to one another share one place, mm.
const SHARED: f64 = 16.0;

/// The words above the plots and the list below them.
pub(super) struct Events {
    pub strip: Option<Strip>,
    pub list: Vec<String>,
}

impl Events {
    /// Of a fault, between two ends; the list may be so wide.
    pub fn of(f: &FaultInTime, axis: &Axis, ends: (f64, f64)) -> Self {
        let known = f.events.iter().filter(|(s, _)| s.is_finite());
        let marks: Vec<(f64, String)> = known.map(|e| (axis.at(e.0), told(e))).collect();
        let strip = Strip::of(&marks, ends, LINES);
        if strip.is_some() {
            let list = Vec::new();
            return Self { strip, list };
        }
        let mut marks = marks;
        marks.sort_by(|a, b| a.0.total_cmp(&b.0));
        let said = marks.iter().enumerate();
        let said = said.map(|(i, m)| format!("{}: {}", i + 1, m.1));
        let numbers: Vec<(f64, String)> = marks
            .iter()
            .enumerate()
            .map(|(i, m)| (m.0, (i + 1).to_string()))
            .collect();
        Self {
            strip: Strip::of(&numbers, ends, 1).or_else(|| Strip::of(&shared(&marks), ends, 1)),
            list: said
                .flat_map(|s| wrap_figures(&s, SIZE, ends.1 - ends.0))
                .collect(),
        }
    }
}

/// An event with its time: "F1 opens, 0.12 s".
pub(super) fn told((seconds, what): &(f64, String)) -> String {
    format!("{what}, {}", time(*seconds))
}

/// One mark for all that stand near together: "3 to 9".
fn shared(marks: &[(f64, String)]) -> Vec<(f64, String)> {
    let mut out: Vec<(f64, String)> = Vec::new();
    let mut first = 0;
    for i in 1..=marks.len() {
        let near = marks.get(i).is_some_and(|m| m.0 - marks[first].0 < SHARED);
        if near {
            continue;
        }
        let middle = (marks[first].0 + marks[i - 1].0) / 2.0;
        let text = match i - first {
            1 => i.to_string(),
            _ => format!("{} to {i}", first + 1),
        };
        out.push((middle, text));
        first = i;
    }
    out
}
