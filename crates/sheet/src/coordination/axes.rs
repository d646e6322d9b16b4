//! The scales of the chart: currents so that all that is marked has room at both sides, times from a millisecond to
//! ten hours as far as something happens then.

use crate::chart::ticks::Tick;
use crate::chart::{Log, current_steps, time, time_steps, widened};
use crate::geometry::{Frame, Point, at};
use quantity::figures;
use study::Coordination;

/// The shortest and the longest time that is shown, s: below it no fuse is measured, above it nothing gets warmer.
const TIMES: (f64, f64) = (1e-3, 36_000.0);
/// Times of a chart on which nothing happens, s.
const NO_TIMES: (f64, f64) = (0.1, 600.0);
/// The fuse's band is shown up to so many times its rating: its maker promises nothing beyond.
const RATINGS: f64 = 10.0;
/// Free beside the lowest and the highest current, as a factor.
const BESIDE: f64 = 1.25;

/// Both ranges.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Ranges {
    pub amps: (f64, f64),
    pub seconds: (f64, f64),
}

impl Ranges {
    /// Of a pair.
    pub fn of(c: &Coordination) -> Self {
        let amps = amps(c);
        Self {
            amps,
            seconds: seconds(c, amps),
        }
    }

    /// Ticks of times, from the foot of a plot to its top.
    pub fn time_ticks(&self, plot: Frame) -> Vec<Tick> {
        let axes = Axes::new(*self, plot);
        let tick = |(seconds, main): (f64, bool)| Tick {
            at: axes.seconds.at(seconds),
            text: time(seconds),
            main,
        };
        time_steps(self.seconds).into_iter().map(tick).collect()
    }

    /// Ticks of currents, along a plot.
    pub fn current_ticks(&self, plot: Frame) -> Vec<Tick> {
        let axes = Axes::new(*self, plot);
        let tick = |(amps, main): (f64, bool)| Tick {
            at: axes.amps.at(amps),
            text: figures(amps, 3),
            main,
        };
        current_steps(self.amps).into_iter().map(tick).collect()
    }
}

/// Both scales of a plot.
#[derive(Clone, Copy, Debug)]
pub(super) struct Axes {
    pub plot: Frame,
    pub amps: Log,
    pub seconds: Log,
}

impl Axes {
    pub fn new(ranges: Ranges, plot: Frame) -> Self {
        Self {
            plot,
            amps: Log::new(ranges.amps, (plot.left, plot.right)),
            seconds: Log::new(ranges.seconds, (plot.bottom, plot.top)),
        }
    }

    /// Where a current flows for a time.
    pub fn point(&self, (amps, seconds): (f64, f64)) -> Point {
        at(self.amps.at(amps), self.seconds.at(seconds))
    }
}

fn known(v: &f64) -> bool {
    v.is_finite() && *v > 0.0
}

/// Least and most of figures that are known.
fn ends(all: impl Iterator<Item = f64>) -> Option<(f64, f64)> {
    all.filter(known)
        .map(|v| (v, v))
        .reduce(|a, b| (a.0.min(b.0), a.1.max(b.1)))
}

fn amps(c: &Coordination) -> (f64, f64) {
    let marked = [c.rating, c.gap.0, c.gap.1, c.load, c.rating * RATINGS];
    let faults = c.faults.into_iter().flat_map(|(low, high)| [low, high]);
    let more = c.damage.first().map(|(a, _)| *a);
    let margin = c.margin.map(|(_, a)| a);
    let start = c.start.iter().map(|(_, a)| *a);
    let all = marked.into_iter().chain(faults).chain(more).chain(margin);
    let (least, most) = ends(all.chain(start)).unwrap_or((1.0, 100.0));
    let range = (least / BESIDE, most * BESIDE);
    let steps: Vec<f64> = current_steps((range.0 / 10.0, range.1 * 10.0))
        .into_iter()
        .map(|(a, _)| a)
        .collect();
    widened(range, &steps)
}

fn seconds(c: &Coordination, amps: (f64, f64)) -> (f64, f64) {
    let shown = |a: f64| a >= amps.0 && a <= amps.1;
    let band = c.band.iter().filter(|(a, ..)| shown(*a));
    let band = band.flat_map(|(_, soonest, latest)| [Some(*soonest), *latest]);
    let damage = c.damage.iter().filter(|(a, _)| shown(*a)).map(|(_, t)| *t);
    let start = c.start.iter().map(|(t, _)| *t);
    let all = band.flatten().chain(damage).chain(start);
    let (least, most) = ends(all).unwrap_or(NO_TIMES);
    let main: Vec<f64> = time_steps(TIMES)
        .into_iter()
        .filter_map(|(s, main)| main.then_some(s))
        .collect();
    let inside = |t: f64| t.clamp(TIMES.0, TIMES.1);
    let (from, to) = widened((inside(least), inside(most)), &main);
    // Two decades at least, so that a curve is no level line.
    widened((from, to.max(from * 100.0).min(TIMES.1)), &main)
}
