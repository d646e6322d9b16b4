//! The sheet put together from the top down: heading and sentence, each plot below its words and key, the time, the
//! list of what happens where it has no room above, and the title block. The sheet is as tall as all of it.

use super::axis::Axis;
use super::curves::{Curves, TALL};
use super::events::Events;
use super::told::told;
use super::{EVENT, FaultInTime, SHOWS};
use crate::Title;
use crate::chart::ticks::{self, FIGURES};
use crate::chart::{AIR, Chart, Foot, Heading, STEP, card};
use crate::geometry::{Frame, at};
use crate::label::Align;

/// From a plot to the words of the next, mm.
const BETWEEN: f64 = 4.0;
/// Right of the plots at least, for half of the last figure of the time, mm.
const RIGHT: f64 = 6.0;
/// Free above and below the list, mm.
const LIST: f64 = 1.0;

/// A fault's chart.
pub(super) fn chart(f: &FaultInTime, title: &Title) -> Chart {
    let edge = card::border(0.0);
    let ends = (edge.left + AIR, edge.right - AIR);
    let heading = Heading::new(&f.heading, &f.says, ends.1 - ends.0);
    let plots: Vec<Curves> = f
        .plots
        .iter()
        .map(|p| Curves::of(p, ends.1 - ends.0))
        .collect();
    let left = plots.iter().map(|p| p.left()).fold(0.0, f64::max);
    let right = plots.iter().map(|p| p.right()).fold(RIGHT, f64::max);
    let sides = (ends.0 + left, ends.1 - right);
    let moments = f.seconds.iter().copied();
    let axis = Axis::of(moments.chain(f.events.iter().map(|e| e.0)), sides);
    let events = Events::of(f, &axis, ends);
    let mut chart = Chart::new((0.0, 0.0), edge, told(f));
    let mut y = edge.top + AIR;
    heading.place(&mut chart, (ends.0, y));
    y = stack(
        &mut chart,
        (f, &plots),
        (&axis, &events),
        y + heading.height(),
    );
    if !events.list.is_empty() {
        chart.words(&events.list, (ends.0, y + LIST), Align::Start);
        y += events.list.len() as f64 * STEP + 2.0 * LIST;
    }
    let foot = Foot::new(
        Vec::new(),
        title,
        (SHOWS, String::new()),
        edge.right - edge.left,
    );
    chart.border = card::border(y + foot.height());
    (chart.width, chart.height) = card::size(chart.border);
    foot.place(&mut chart);
    chart
}

/// The plots one below the other, the time below the last; gives where that ends.
fn stack(
    chart: &mut Chart,
    (f, plots): (&FaultInTime, &[Curves]),
    (axis, events): (&Axis, &Events),
    top: f64,
) -> f64 {
    let (time, what) = axis.ticks();
    let (left, right) = axis.ends();
    let mut y = top;
    for (i, plot) in plots.iter().enumerate() {
        plot.place_head(chart, (chart.border.left + AIR, y));
        y += plot.head();
        if let Some(strip) = events.strip.as_ref().filter(|_| i == 0) {
            y += strip.height();
            strip.place(chart, y);
        }
        let frame = Frame {
            left,
            right,
            top: y,
            bottom: y + TALL,
        };
        ticks::uprights(chart, frame, &time);
        for (seconds, _) in f.events.iter().filter(|e| e.0.is_finite()) {
            let x = axis.at(*seconds);
            chart.line(EVENT, vec![at(x, frame.top), at(x, frame.bottom)]);
        }
        plot.place(chart, frame);
        plot.draw(chart, &f.seconds, axis, frame);
        y = frame.bottom + BETWEEN;
        if i + 1 == plots.len() {
            ticks::figures(chart, frame, &time, &what);
            y = frame.bottom + FIGURES;
        }
    }
    y
}
