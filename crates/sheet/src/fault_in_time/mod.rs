//! What happens after a fault: currents, temperatures and voltages over one time, one plot below the other, with what
//! opens or gives way marked across all of them. Takes the figures moment by moment with their names, gives one sheet.

mod axis;
mod compose;
mod curves;
mod events;
mod told;

#[cfg(test)]
mod tests;

use crate::chart::{Ink, stem};
use crate::{Sheet, Title};

/// A fault and what followed, moment by moment.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct FaultInTime {
    /// What happened: "W1.3 chafed through to the body at its far end".
    pub heading: String,
    /// What came of it, in a sentence.
    pub says: String,
    /// The moments, s after the fault, rising.
    pub seconds: Vec<f64>,
    /// The plots from the top down.
    pub plots: Vec<Plot>,
    /// When something happens, s, and what: "F1 opens". The time is told after it.
    pub events: Vec<(f64, String)>,
}

/// One plot.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Plot {
    /// What is plotted: "temperature of the wires".
    pub title: String,
    /// Its unit: "°C".
    pub unit: String,
    /// Whether nought belongs on its scale: so that a steady line looks steady.
    pub whole: bool,
    /// About six at most: more can't be told apart.
    pub lines: Vec<Line>,
}

/// One line of a plot.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Line {
    /// Whose: "W1.3".
    pub name: String,
    /// The figure at each moment, where there is one.
    pub values: Vec<Option<f64>>,
    /// What it is not to pass.
    pub limit: Option<f64>,
}

/// The chart of a fault.
pub fn fault_in_time(f: &FaultInTime, title: &Title) -> Sheet {
    let heading = format!("{}: {}", title.title, f.heading);
    let chart = compose::chart(f, title);
    chart.sheet(&stem("fault", &f.heading), f.heading.clone(), &heading)
}

/// What the sheet shows.
const SHOWS: &str = "A fault in time";

/// The lines of a plot: dark shades that differ in brightness too, and each broken in its own way or
/// thicker.
const LINES: [Ink; 6] = [
    Ink::curve("#000000", 0.7),
    Ink::curve("#9c1d1d", 0.7).dashed("3.2 1"),
    Ink::curve("#1c4f9c", 0.7).dashed("1.1 0.8"),
    Ink::curve("#1d6b3a", 0.7).dashed("4 0.9 0.9 0.9"),
    Ink::curve("#7a3f91", 0.7).dashed("2 0.8 0.6 0.8 0.6 0.8"),
    Ink::curve("#c08a2b", 1.2),
];
/// What the line of the same number is not to pass.
const LIMITS: [Ink; 6] = [
    limit("#000000"),
    limit("#9c1d1d"),
    limit("#1c4f9c"),
    limit("#1d6b3a"),
    limit("#7a3f91"),
    limit("#a06d12"),
];
/// Something happens.
const EVENT: Ink = Ink::rule("#333333", 0.3).dashed("0.9 0.7");

const fn limit(colour: &'static str) -> Ink {
    Ink::curve(colour, 0.35).dashed("2 1.6")
}
