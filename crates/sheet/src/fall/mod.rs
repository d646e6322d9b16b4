//! Where a load's volts go: from the battery out and back, a bar for each piece of the way that begins where the last
//! one ended, and how far it may come. Takes the pieces with their names and volts, gives one sheet.

mod compose;

#[cfg(test)]
mod tests;

use crate::chart::{Fill, Ink, stem};
use crate::{Sheet, Title};

/// What a piece of the way is.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum FallKind {
    /// A wire with its joints.
    #[default]
    Wire,
    /// A fuse, a contact, a plug.
    Part,
    /// The vehicle's own: its body, its wiring.
    Vehicle,
    /// The load, which is not lost.
    Load,
}

/// A piece of the way.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct FallRow {
    /// What it is.
    pub kind: FallKind,
    /// "W1.7", "F1".
    pub name: String,
    /// What is to be said of it: "4 mm², 3.1 m".
    pub what: String,
    /// V lost in it; what a load gets.
    pub volts: f64,
}

/// A load's way.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct FallChart {
    /// The load: "E1.1, rack lamps lamp 1".
    pub heading: String,
    /// The figures in a sentence.
    pub says: String,
    /// The pieces in their order.
    pub rows: Vec<FallRow>,
    /// What may be lost, V, and in words.
    pub limit: (f64, String),
}

/// The chart of a load's way.
pub fn fall(f: &FallChart, title: &Title) -> Sheet {
    let name = f.heading.split(',').next().unwrap_or_default().trim();
    let heading = format!("{}: where the volts of {name} go", title.title);
    let chart = compose::chart(f, title);
    chart.sheet(&stem("drop", name), f.heading.clone(), &heading)
}

/// What the sheet shows.
const SHOWS: &str = "Where the volts go";

/// Bars.
const WIRE: Fill = Fill::tint("#b9842f").tag();
const PART: Fill = Fill::tint("#33475b").tag();
const VEHICLE: Fill = Fill::tint("#9aa0a8").tag();
/// From where a bar ends to where the next begins.
const LINK: Ink = Ink::curve("#333333", 0.2);
/// What may be lost.
const LIMIT: Ink = Ink::curve("#a01818", 0.6).dashed("3 1.6");
