//! The two plots: charge over the hours with the reserve, and voltage at the posts, each with its scale and
//! with the parts of the day behind it.

use super::{CHARGE, RESERVE, VOLTS, tint};
use crate::chart::{Chart, EDGE, GRID, Ink, Scale, Sign, block, decimal, simplified, span};
use crate::geometry::{Frame, Point, at};
use crate::label::Align;
use crate::text::{SIZE, width, wrap};
use plan::SupplyState;
use quantity::figures;
use study::Day;

/// From a scale's figures to the plot, mm.
const NEAR: f64 = 2.0;
/// Room for a scale's figures, mm.
const FIGURES: f64 = 11.0;
/// From one tick of a scale to the next at least, mm.
const APART: f64 = 6.0;
/// Room for the words of the reserve at the right of a plot, mm.
pub(super) const RIGHT: f64 = 19.0;
/// Room for the words of a scale and its figures, mm.
pub(super) const LEFT: f64 = 31.0;
/// The starter turns for seconds: its band is widened to this, or nobody would see it, mm.
const CRANKING: f64 = 0.7;
/// Steps of volts are no finer than this.
const FINEST: f64 = 0.2;
/// Ticks of the charge, of one.
const FIFTHS: f64 = 0.2;

/// Behind a plot, the parts of the day.
pub(super) fn bands(chart: &mut Chart, day: &Day, hours: &Scale, plot: Frame) {
    let cranks = |p: &&study::DayPart| p.supply == SupplyState::Cranking;
    let (short, long): (Vec<_>, Vec<_>) = day.parts.iter().partition(cranks);
    // The starter last: its band lies over its neighbours.
    for part in long.into_iter().chain(short) {
        let (mut left, mut right) = (hours.at(part.from_h), hours.at(part.to_h));
        if part.supply == SupplyState::Cranking {
            let wider = ((CRANKING - (right - left)) / 2.0).max(0.0);
            left = (left - wider).max(plot.left);
            right = (right + wider).min(plot.right);
        }
        let frame = Frame {
            left,
            right,
            ..plot
        };
        chart.band(tint(part.supply), frame);
    }
}

/// What a plot is divided by.
struct Scaled<'a> {
    scale: Scale,
    ticks: Vec<(f64, String)>,
    /// What is plotted, with its unit.
    what: (&'a str, &'a str),
    ink: Ink,
}

/// Words, scale, edge and curve of a plot.
fn plot(chart: &mut Chart, frame: Frame, left: f64, scaled: &Scaled, curve: &[Point]) {
    for (v, text) in &scaled.ticks {
        let y = scaled.scale.at(*v);
        chart.line(GRID, vec![at(frame.left, y), at(frame.right, y)]);
        let place = (frame.left - NEAR, y - block(1) / 2.0);
        chart.words(std::slice::from_ref(text), place, Align::End);
    }
    chart.edge(EDGE, frame);
    let words = with_unit(scaled.what, frame.left - left - FIGURES);
    let middle = (frame.top + frame.bottom) / 2.0;
    let top = middle - block(words.len()) / 2.0;
    chart.words(&words, (left, top), Align::Start);
    chart.line(scaled.ink, simplified(curve));
}

/// Words and what ends them in lines: a figure is not parted from its unit.
fn with_unit((words, end): (&str, &str), most: f64) -> Vec<String> {
    let mut lines = wrap(words, SIZE, most);
    match lines.last_mut() {
        Some(last) if width(&format!("{last} {end}"), SIZE) <= most => *last += &format!(" {end}"),
        _ => lines.push(end.to_owned()),
    }
    lines
}

/// The charge, with the reserve and the marks on it; `left` is where its words begin.
pub(super) fn charge(
    chart: &mut Chart,
    (day, reserve): (&Day, f64),
    hours: &Scale,
    frame: Frame,
    left: f64,
) {
    let whole = Scale {
        from: 0.0,
        to: 1.0,
        start: frame.bottom,
        end: frame.top,
    };
    let tick = |v: f64| (v, format!("{:.0}", v * 100.0));
    let scaled = Scaled {
        scale: whole,
        ticks: whole.ticks(FIFTHS).into_iter().map(tick).collect(),
        what: ("charge of the battery,", "%"),
        ink: CHARGE,
    };
    let points = moments(day, |p| p.charge).chain([(hours.to, day.to)]);
    let place = |(hour, charge): (f64, f64)| at(hours.at(hour), whole.at(charge.clamp(0.0, 1.0)));
    let curve: Vec<Point> = points.map(place).collect();
    plot(chart, frame, left, &scaled, &curve);
    let y = whole.at(reserve.clamp(0.0, 1.0));
    chart.line(RESERVE, vec![at(frame.left, y), at(frame.right, y)]);
    let left_over = format!("{} %", figures(reserve * 100.0, 3));
    let lines = with_unit(("must stay above:", &left_over), RIGHT - NEAR - 1.0);
    let top = (y - block(lines.len()) / 2.0).min(frame.bottom - block(lines.len()));
    chart.words(&lines, (frame.right + NEAR, top), Align::Start);
    let mut mark = |sign: Sign, hour: f64| {
        chart.mark(sign, place((hour, charge_at(day, hour))));
    };
    day.cut_out
        .iter()
        .for_each(|(h, _)| mark(Sign::Diamond, *h));
    day.no_start
        .iter()
        .for_each(|(h, _)| mark(Sign::CrossedRing, *h));
}

/// The voltage at the posts.
pub(super) fn volts(chart: &mut Chart, day: &Day, hours: &Scale, frame: Frame, left: f64) {
    let all = || moments(day, |p| p.volts);
    let least = all().map(|(_, v)| v).fold(f64::INFINITY, f64::min);
    let most = all().map(|(_, v)| v).fold(f64::NEG_INFINITY, f64::max);
    let whole = if least <= most {
        (least, most)
    } else {
        (0.0, 1.0)
    };
    let (from, to, step) = span(whole, (frame.bottom - frame.top) / APART, FINEST);
    let scale = Scale {
        from,
        to,
        start: frame.bottom,
        end: frame.top,
    };
    let tick = |v: f64| (v, decimal(v, step));
    let scaled = Scaled {
        scale,
        ticks: scale.ticks(step).into_iter().map(tick).collect(),
        what: ("voltage at its posts,", "V"),
        ink: VOLTS,
    };
    let last = all().last().map(|(_, v)| (hours.to, v));
    let place = |(hour, v): (f64, f64)| at(hours.at(hour), scale.at(v));
    let curve: Vec<Point> = all().chain(last).map(place).collect();
    plot(chart, frame, left, &scaled, &curve);
}

/// The reckoned moments of one figure.
fn moments(day: &Day, of: impl Fn(&study::DayPoint) -> f64) -> impl Iterator<Item = (f64, f64)> {
    let known = move |p: &study::DayPoint| (p.hour, of(p));
    day.points
        .iter()
        .map(known)
        .filter(|(hour, v)| hour.is_finite() && v.is_finite())
}

/// The charge at an hour: that of the last moment before it.
fn charge_at(day: &Day, hour: f64) -> f64 {
    let before = moments(day, |p| p.charge).take_while(|(h, _)| *h <= hour + 1e-9);
    before.last().map_or(day.from, |(_, charge)| charge)
}
