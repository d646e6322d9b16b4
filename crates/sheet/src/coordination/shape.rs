//! Everything of the chart that is no word: tints, the fuse's band, the curves and what is marked, cut at the edge of
//! the plot.

use super::axes::Axes;
use super::margin::Margin;
use super::{BAND, FAULT, FAULTS, FUSE, GAP, HATCH, LOAD, MARGIN, OPEN, START, WIRE};
use crate::chart::{Area, Chart, Ink, Sign, clip, simplified};
use crate::geometry::{Frame, Point, at};
use study::Coordination;

/// From one line of the hatching to the next, mm.
const HATCHED: f64 = 1.6;

/// A point of the band: current, soonest, latest.
type Edge = (f64, f64, Option<f64>);

/// The runs of each kind of line inside the plot, in the order in which they are drawn.
pub(super) struct Shapes {
    pub fuse: Vec<Vec<Point>>,
    pub wire: Vec<Vec<Point>>,
    pub start: Vec<Vec<Point>>,
    pub margin: Vec<Vec<Point>>,
    pub load: Vec<Vec<Point>>,
    pub faults: Vec<Vec<Point>>,
}

impl Shapes {
    /// Of a pair.
    pub fn of(c: &Coordination, margin: Option<&Margin>, axes: &Axes) -> Self {
        let band = known(c);
        let soonest: Vec<Point> = band.iter().map(|b| axes.point((b.0, b.1))).collect();
        let latest = runs(&band).into_iter().filter(|r| closed(r));
        let latest = latest.flat_map(|r| inside(axes, &edge(axes, r)));
        let start: Vec<Point> = c
            .start
            .iter()
            .filter(|(t, a)| t.is_finite() && a.is_finite() && *a > 0.0)
            .map(|(t, a)| axes.point((*a, *t)))
            .collect();
        let ends = |m: &Margin| [axes.point((m.amps, m.slow)), axes.point((m.amps, m.harm))];
        let apart = margin.map(|m| inside(axes, &ends(m))).unwrap_or_default();
        let faults = c.faults.into_iter().flat_map(|(low, high)| [low, high]);
        Self {
            fuse: inside(axes, &soonest).into_iter().chain(latest).collect(),
            wire: inside(axes, &damage(c, axes)),
            start: inside(axes, &start),
            margin: apart,
            load: upright(axes, c.load),
            faults: faults.flat_map(|a| upright(axes, a)).collect(),
        }
    }

    /// Every kind with its ink; the wire's curve over the fuse's edges.
    pub fn kinds(&self) -> [(Ink, &Vec<Vec<Point>>); 6] {
        [
            (FAULT, &self.faults),
            (LOAD, &self.load),
            (START, &self.start),
            (FUSE, &self.fuse),
            (MARGIN, &self.margin),
            (WIRE, &self.wire),
        ]
    }

    /// Draws the lines.
    pub fn draw(&self, chart: &mut Chart) {
        for (ink, runs) in self.kinds() {
            runs.iter().for_each(|r| chart.line(ink, r.clone()));
        }
    }
}

/// Draws what lies behind the lines: both spans of currents and the fuse's band.
pub(super) fn tints(chart: &mut Chart, c: &Coordination, axes: &Axes) {
    for (fill, span) in [(FAULTS, c.faults), (GAP, Some(c.gap))] {
        if let Some(f) = span.and_then(|s| between(axes, s)) {
            let corners = [
                (f.left, f.top),
                (f.right, f.top),
                (f.right, f.bottom),
                (f.left, f.bottom),
            ];
            let points = corners.map(|(x, y)| at(x, y)).to_vec();
            chart.areas.push(Area { points, fill });
        }
    }
    let band = known(c);
    for run in runs(&band) {
        let soonest = run.iter().map(|b| axes.point((b.0, b.1)));
        let (back, fill) = match closed(run) {
            true => (edge(axes, run), BAND),
            false => {
                let above = |b: &Edge| at(axes.amps.at(b.0), axes.plot.top);
                (run.iter().map(above).collect(), OPEN)
            }
        };
        let around: Vec<Point> = soonest.clone().chain(back.into_iter().rev()).collect();
        let points = clip::area(axes.plot, &around);
        if points.len() > 2 {
            chart.areas.push(Area { points, fill });
        }
        if !closed(run) {
            hatch(chart, axes, &soonest.collect::<Vec<Point>>());
        }
    }
}

/// Draws the mark of the least margin.
pub(super) fn mark(chart: &mut Chart, margin: &Margin, axes: &Axes) {
    let place = axes.point((margin.amps, margin.slow));
    if axes.plot.holds(Frame::around(place, place)) {
        chart.mark(Sign::Diamond, place);
    }
}

/// The box of a span of currents, where it has any width.
pub(super) fn between(axes: &Axes, (from, to): (f64, f64)) -> Option<Frame> {
    let (left, right) = (axes.amps.at(from), axes.amps.at(to));
    let (left, right) = (left.max(axes.plot.left), right.min(axes.plot.right));
    let frame = Frame {
        left,
        right,
        ..axes.plot
    };
    (right > left).then_some(frame)
}

fn known(c: &Coordination) -> Vec<Edge> {
    let known = |(a, soonest, _): &&Edge| *a > 0.0 && a.is_finite() && soonest.is_finite();
    let band = c.band.iter().filter(known);
    band.map(|(a, soonest, latest)| (*a, *soonest, latest.filter(|t| t.is_finite())))
        .collect()
}

/// The band in runs with and without a latest; one without reaches to where the next begins.
fn runs(band: &[Edge]) -> Vec<&[Edge]> {
    let mut out = Vec::new();
    let mut from = 0;
    for i in 1..=band.len() {
        let (before, here) = (band[from].2, band.get(i).map(|b| b.2));
        if here.is_some_and(|h| h.is_some() == before.is_some()) {
            continue;
        }
        let to = if before.is_none() && here.is_some() {
            i + 1
        } else {
            i
        };
        out.push(&band[from..to]);
        from = i;
    }
    out
}

/// Whether a latest is promised all along a run.
fn closed(run: &[Edge]) -> bool {
    run.iter().all(|b| b.2.is_some())
}

/// The latest of a run.
fn edge(axes: &Axes, run: &[Edge]) -> Vec<Point> {
    let latest = run.iter().filter_map(|b| b.2.map(|t| (b.0, t)));
    latest.map(|p| axes.point(p)).collect()
}

fn damage(c: &Coordination, axes: &Axes) -> Vec<Point> {
    let known = |(a, t): &&(f64, f64)| *a > 0.0 && a.is_finite() && t.is_finite();
    let curve = c.damage.iter().filter(known);
    curve.map(|p| axes.point(*p)).collect()
}

fn upright(axes: &Axes, amps: f64) -> Vec<Vec<Point>> {
    if !(amps > 0.0 && amps.is_finite()) {
        return Vec::new();
    }
    let x = axes.amps.at(amps);
    inside(axes, &[at(x, axes.plot.bottom), at(x, axes.plot.top)])
}

fn inside(axes: &Axes, points: &[Point]) -> Vec<Vec<Point>> {
    let runs = clip::line(axes.plot, points);
    runs.iter().map(|r| simplified(r)).collect()
}

/// Lines from the soonest to the top of the plot.
fn hatch(chart: &mut Chart, axes: &Axes, soonest: &[Point]) {
    for pair in soonest.windows(2) {
        let (a, b) = (pair[0], pair[1]);
        let first = (a.x / HATCHED).ceil() as i64;
        let last = (b.x / HATCHED).ceil() as i64;
        for n in first..last {
            let x = n as f64 * HATCHED;
            let y = a.y + (b.y - a.y) * (x - a.x) / (b.x - a.x);
            let line = [at(x, y), at(x, axes.plot.top)];
            for run in clip::line(axes.plot, &line) {
                chart.line(HATCH, run);
            }
        }
    }
}
