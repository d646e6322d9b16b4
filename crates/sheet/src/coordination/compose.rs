//! The sheet put together from the top down: heading, words of what is marked, plot, currents, key and title block.
//! The plot has its size; what stands below it moves down, and the sheet is as tall as all of it.

use super::axes::{Axes, Ranges};
use super::free::Free;
use super::margin::Margin;
use super::marks::{Marks, PROMISED};
use super::shape::{self, Shapes};
use super::told::told;
use super::{BAND, CoordinationNames, FUSE, GAP, LOAD, SHOWS, START, WIRE};
use crate::Title;
use crate::chart::ticks::{self, FIGURES};
use crate::chart::{AIR, Chart, EDGE, Foot, Heading, Ink, REACH, Sample, Sign, card};
use crate::geometry::{Frame, Point};
use crate::label::Align;
use study::Coordination;

/// Height of the plot, mm: a decade of eight is 14 mm.
const PLOT: f64 = 112.0;
/// Right of the plot, for half of the last figure below it, mm.
const RIGHT: f64 = 4.5;
/// What the axes are, in a sentence.
const SAYS: &str =
    "How long the fuse takes to open at each current, and how long the wire bears that current.";

/// What is told where: a key entry for each thing that found no place in the plot.
type Wanted = Vec<(Sample, String)>;

/// A pair's chart.
pub(super) fn chart(c: &Coordination, names: &CoordinationNames, title: &Title) -> Chart {
    let edge = card::border(0.0);
    let (left, right) = (edge.left + AIR, edge.right - AIR);
    let about = format!("{} and {}", names.fuse, names.wire);
    let heading = Heading::new(&about, SAYS, right - left);
    let ranges = Ranges::of(c);
    let mut plot = Frame {
        left: left + ticks::gutter(&ranges.time_ticks(edge)),
        right: right - RIGHT,
        top: edge.top + AIR + heading.height(),
        bottom: edge.top + AIR + heading.height() + PLOT,
    };
    let marks = Marks::of(c, names, &Axes::new(ranges, plot), (left, right));
    let strip = marks.strip.as_ref().map_or(0.0, |s| s.height());
    plot = Frame {
        top: plot.top + strip,
        bottom: plot.bottom + strip,
        ..plot
    };
    let mut chart = Chart::new((0.0, 0.0), edge, told(c, names));
    heading.place(&mut chart, (left, edge.top + AIR));
    if let Some(strip) = &marks.strip {
        strip.place(&mut chart, plot.top);
    }
    let wanted = in_plot(&mut chart, (c, names), &Axes::new(ranges, plot), &marks);
    ticks::levels(&mut chart, plot, &ranges.time_ticks(plot));
    ticks::uprights(&mut chart, plot, &ranges.current_ticks(plot));
    ticks::figures(&mut chart, plot, &ranges.current_ticks(plot), "current, A");
    chart.edge(EDGE, plot);
    let foot = Foot::new(
        wanted,
        title,
        (SHOWS, String::new()),
        edge.right - edge.left,
    );
    chart.border = card::border(plot.bottom + FIGURES + foot.height());
    (chart.width, chart.height) = card::size(chart.border);
    foot.place(&mut chart);
    chart
}

/// Everything inside the plot; gives what the key has to tell.
fn in_plot(
    chart: &mut Chart,
    (c, names): (&Coordination, &CoordinationNames),
    axes: &Axes,
    marks: &Marks,
) -> Wanted {
    let margin = Margin::of(c);
    let shapes = Shapes::of(c, margin.as_ref(), axes);
    shape::tints(chart, c, axes);
    shapes.draw(chart);
    let all = shapes.kinds().into_iter().flat_map(|(_, runs)| runs);
    let mut free = Free::new(axes.plot, all.cloned().collect(), chart.areas.clone());
    let mut wanted = Wanted::new();
    if let Some(m) = &margin {
        shape::mark(chart, m, axes);
        let place = axes.point((m.amps, m.slow));
        free.take(Frame::around(place, place).grown(REACH));
        let along = [&shapes.faults[..], &shapes.fuse, &shapes.wire].concat();
        let own = (&shapes.margin[..], &along[..]);
        if !beside(chart, &mut free, own, &m.told()) {
            wanted.push((Sample::Mark(Sign::Diamond), m.told()));
        }
    }
    if !marks.tells_gap && !gap(chart, &mut free, c, axes) {
        wanted.push((Sample::Box(GAP), PROMISED.to_owned()));
    }
    let mut lines: Vec<(Ink, &[Vec<Point>], &str)> = vec![
        (WIRE, &shapes.wire, &names.wire),
        (FUSE, &shapes.fuse, &names.fuse),
    ];
    if !shapes.start.is_empty() {
        lines.push((START, &shapes.start, "start"));
    }
    for (ink, own, text) in lines {
        if !beside(chart, &mut free, (own, &[]), text) {
            let sample = match ink == FUSE {
                true => Sample::Box(BAND),
                false => Sample::Line(ink),
            };
            wanted.push((sample, text.to_owned()));
        }
    }
    if !marks.names_load {
        wanted.push((Sample::Line(LOAD), names.load.clone()));
    }
    wanted
}

/// Runs of a line, and those that lie along it.
type Own<'a> = (&'a [Vec<Point>], &'a [Vec<Point>]);

/// Words beside their line; whether there is room.
fn beside(chart: &mut Chart, free: &mut Free, (own, along): Own, text: &str) -> bool {
    let Some((lines, frame)) = free.beside(own, along, text) else {
        return false;
    };
    chart.band(free.ground(frame), frame);
    chart.words(&lines, (frame.left, frame.top), Align::Start);
    true
}

/// The words of the gap, upwards in it; whether there is room.
fn gap(chart: &mut Chart, free: &mut Free, c: &Coordination, axes: &Axes) -> bool {
    let within = shape::between(axes, c.gap);
    let Some(upright) = within.and_then(|w| free.upright(w, PROMISED)) else {
        return within.is_none();
    };
    chart.band(free.ground(upright.frame()), upright.frame());
    chart.uprights.push(upright);
    true
}
