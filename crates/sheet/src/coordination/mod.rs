//! The chart of a fuse and a wire that it protects: over the current, how long the fuse takes and how long the wire
//! bears it, both on scales of tenfolds; with the load, its start and the fault currents that there are. Takes the
//! pair as the study worked it out, with its names, gives one sheet.

mod axes;
mod compose;
mod free;
mod margin;
mod marks;
mod shape;
mod told;

#[cfg(test)]
mod tests;

use crate::chart::{Fill, Ink, stem};
use crate::{Sheet, Title};

/// What the parts of the chart are called.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct CoordinationNames {
    /// The fuse: "F1, 15 A miniature blade".
    pub fuse: String,
    /// The wire: "W1.3, 2.5 mm² PVC".
    pub wire: String,
    /// What the fuse feeds: "work lamps".
    pub load: String,
}

impl CoordinationNames {
    /// A name without what is told of it.
    fn short(name: &str) -> &str {
        name.split(',').next().unwrap_or(name).trim()
    }
}

/// The chart of a fuse and a wire.
pub fn coordination(c: &study::Coordination, names: &CoordinationNames, title: &Title) -> Sheet {
    let short = CoordinationNames::short;
    let pair = format!("{} and {}", short(&names.fuse), short(&names.wire));
    let heading = format!("{}: {pair}", title.title);
    let chart = compose::chart(c, names, title);
    chart.sheet(&stem("coordination", &pair), pair, &heading)
}

/// What the sheet shows.
const SHOWS: &str = "A fuse and a wire";

/// The wire's damage curve.
const WIRE: Ink = Ink::curve("#7a1414", 1.0);
/// Both edges of the fuse's band.
const FUSE: Ink = Ink::curve("#1c3f73", 0.4);
/// The load, and its start.
const LOAD: Ink = Ink::curve("#12552f", 0.5).dashed("3 0.9 0.7 0.9");
const START: Ink = Ink::curve("#12552f", 0.4).dashed("1.5 1");
/// The lowest and the highest fault current.
const FAULT: Ink = Ink::curve("#444444", 0.4).dashed("0.5 0.8");
/// From the fuse's slow edge to the wire's curve.
const MARGIN: Ink = Ink::curve("black", 0.3);
/// What shows that the band has no end upwards.
const HATCH: Ink = Ink::rule("#7f97bb", 0.15);

/// Between the fuse's edges.
const BAND: Fill = Fill::tint("#c3d2e8");
/// Above the soonest where no latest is promised.
const OPEN: Fill = Fill::tint("#e9eff7");
/// Where no opening is promised.
const GAP: Fill = Fill::tint("#e6dcec");
/// Between the fault currents.
const FAULTS: Fill = Fill::tint("#f8f1de");
