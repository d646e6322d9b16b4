//! One plot: its words and key above it, its scale, its curves and what they are not to pass.

use super::axis::Axis;
use super::{LIMITS, LINES, Plot};
use crate::chart::ticks::{self, Tick};
use crate::chart::{
    Chart, EDGE, Ink, Key, LEADER, Sample, Scale, block, decimal, simplified, span, spread,
};
use crate::geometry::{Frame, Point, at};
use crate::label::Align;
use crate::text::{SIZE, width};
use quantity::figures;

/// From one tick to the next at least, mm.
const APART: f64 = 6.0;
/// Height of a plot, mm.
pub(super) const TALL: f64 = 42.0;
/// No step is finer, whatever the unit: rounding would show as a change.
const FINEST: f64 = 0.01;
/// Nought is on a scale if the least is less than this part of the most.
const NEAR_NOUGHT: f64 = 0.6;
/// From the plot to the figure of a limit, mm.
const NEAR: f64 = 2.0;
/// From the words to the plot at least: more than half of its highest figure, mm.
const CLEAR: f64 = 2.2;
/// Half the length of a line that is known at one moment only, mm.
const SHORT: f64 = 0.5;

/// A plot that has its words and its scale.
pub(super) struct Curves<'a> {
    plot: &'a Plot,
    key: Key,
    /// From, to, step.
    span: (f64, f64, f64),
}

impl<'a> Curves<'a> {
    /// Of a plot with a key so wide.
    pub fn of(plot: &'a Plot, room: f64) -> Self {
        let named = plot.lines.iter().zip(LINES.iter().cycle());
        let entry = |(line, ink): (&super::Line, &_)| {
            let limit = line.limit.map(|l| format!(", limit {}", told(l, plot)));
            let text = format!("{}{}", line.name, limit.unwrap_or_default());
            (Sample::Line(*ink), text)
        };
        Self {
            plot,
            key: Key::of(named.map(entry).collect(), room),
            span: scaled(plot),
        }
    }

    /// How tall its words and key are, mm.
    pub fn head(&self) -> f64 {
        block(1) + self.key.height().max(CLEAR)
    }

    /// How much room the figures left of it take, mm.
    pub fn left(&self) -> f64 {
        let anywhere = Frame::around(at(0.0, 0.0), at(TALL, TALL));
        ticks::gutter(&self.ticks(anywhere))
    }

    /// How much room the figures of limits take right of it, mm.
    pub fn right(&self) -> f64 {
        let limits = self.limits();
        let wide = limits.iter().map(|(_, text)| width(text, SIZE) + NEAR);
        wide.fold(0.0, f64::max)
    }

    /// Puts its words with the key below them.
    pub fn place_head(&self, chart: &mut Chart, (left, top): (f64, f64)) {
        let words = format!("{}, {}", self.plot.title, self.plot.unit);
        chart.words(&[words], (left, top), Align::Start);
        self.key.place(chart, (left, top + block(1)));
    }

    /// Draws its scale, its edge and its limits.
    pub fn place(&self, chart: &mut Chart, frame: Frame) {
        ticks::levels(chart, frame, &self.ticks(frame));
        chart.edge(EDGE, frame);
        let scale = self.scale(frame);
        for (i, line) in self.plot.lines.iter().enumerate() {
            if let Some(limit) = line.limit.filter(|l| l.is_finite()) {
                let y = scale.at(limit);
                let ink = LIMITS[i % LIMITS.len()];
                chart.line(ink, vec![at(frame.left, y), at(frame.right, y)]);
            }
        }
        let limits = self.limits();
        let wanted: Vec<(f64, f64)> = limits
            .iter()
            .map(|(limit, _)| (scale.at(*limit), block(1)))
            .collect();
        let beyond = (frame.top - block(1) / 2.0, frame.bottom + block(1) / 2.0);
        for ((limit, text), middle) in limits.iter().zip(spread(&wanted, beyond)) {
            let y = scale.at(*limit);
            let ends = vec![at(frame.right, y), at(frame.right + NEAR - 0.5, middle)];
            chart.line(LEADER, ends);
            let place = (frame.right + NEAR, middle - block(1) / 2.0);
            chart.words(std::slice::from_ref(text), place, Align::Start);
        }
    }

    /// Draws its curves.
    pub fn draw(&self, chart: &mut Chart, seconds: &[f64], axis: &Axis, frame: Frame) {
        let scale = self.scale(frame);
        let mut lines: Vec<(&super::Line, &Ink)> =
            self.plot.lines.iter().zip(LINES.iter().cycle()).collect();
        // Where lines lie on one another, the thick one shows at both sides of what lies over it.
        lines.sort_by(|(_, a), (_, b)| b.width.total_cmp(&a.width));
        for (line, ink) in lines {
            let moments = seconds.iter().zip(&line.values);
            let place = |(s, v): (&f64, &Option<f64>)| {
                let v = v.filter(|v| v.is_finite() && s.is_finite())?;
                Some(at(axis.at(*s), scale.at(v)))
            };
            let places: Vec<Option<Point>> = moments.map(place).collect();
            for run in places.split(Option::is_none) {
                let run: Vec<Point> = run.iter().flatten().copied().collect();
                match &run[..] {
                    [] => {}
                    [one] => chart.line(*ink, short(*one, frame)),
                    _ => chart.line(*ink, simplified(&run)),
                }
            }
        }
    }

    fn scale(&self, frame: Frame) -> Scale {
        Scale {
            from: self.span.0,
            to: self.span.1,
            start: frame.bottom,
            end: frame.top,
        }
    }

    fn ticks(&self, frame: Frame) -> Vec<Tick> {
        let scale = self.scale(frame);
        let tick = |v: f64| Tick {
            at: scale.at(v),
            text: decimal(v, self.span.2),
            main: true,
        };
        scale.ticks(self.span.2).into_iter().map(tick).collect()
    }

    /// The limits with their words, the highest first; lines that share one share the words.
    fn limits(&self) -> Vec<(f64, String)> {
        let all = self.plot.lines.iter().filter_map(|l| l.limit);
        let mut out: Vec<(f64, String)> = all
            .filter(|l| l.is_finite())
            .map(|l| (l, told(l, self.plot)))
            .collect();
        out.sort_by(|a, b| b.0.total_cmp(&a.0));
        out.dedup_by(|a, b| a.1 == b.1);
        out
    }
}

/// A figure with the plot's unit.
pub(super) fn told(v: f64, plot: &Plot) -> String {
    format!("{} {}", figures(v, 3), plot.unit)
}

/// The span of a plot's scale, with its step: from nought where that is near.
fn scaled(plot: &Plot) -> (f64, f64, f64) {
    let values = plot.lines.iter().flat_map(|l| l.values.iter().flatten());
    let limits = plot.lines.iter().filter_map(|l| l.limit.as_ref());
    let known = values.chain(limits).copied().filter(|v| v.is_finite());
    let whole = known.map(|v| (v, v));
    let whole = whole.reduce(|a, b| (a.0.min(b.0), a.1.max(b.1)));
    let (mut least, mut most) = whole.unwrap_or((0.0, 1.0));
    if least > 0.0 && (plot.whole || least < most * NEAR_NOUGHT) {
        least = 0.0;
    }
    if most < 0.0 && (plot.whole || most > least * NEAR_NOUGHT) {
        most = 0.0;
    }
    span((least, most), TALL / APART, FINEST)
}

/// A line known at one moment only.
fn short(one: Point, frame: Frame) -> Vec<Point> {
    let x = one.x.clamp(frame.left + SHORT, frame.right - SHORT);
    vec![at(x - SHORT, one.y), at(x + SHORT, one.y)]
}
