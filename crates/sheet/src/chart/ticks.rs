//! Ticks: lines of the grid across a plot and their figures beside or below it. A figure that would touch one that
//! matters more is left out; its line stays.

use super::{Chart, GRID, Ink, block};
use crate::geometry::{Frame, at};
use crate::label::Align;
use crate::text::{ASCENT, DESCENT, SIZE, width};

/// A lesser tick across a plot.
const FINE: Ink = Ink::rule("#c3c7cd", 0.12);
/// From the figures to the plot at their right, and above them, mm.
const NEAR: f64 = 1.5;
const BELOW: f64 = 2.2;
/// Free between two figures, mm.
const APART: f64 = 1.2;

/// A tick of a scale.
#[derive(Clone, Debug)]
pub(crate) struct Tick {
    /// Where on the sheet, mm.
    pub at: f64,
    pub text: String,
    /// Whether it matters more than the others.
    pub main: bool,
}

impl Tick {
    fn ink(&self) -> Ink {
        if self.main { GRID } else { FINE }
    }
}

/// How much room the figures of level ticks take left of a plot, mm.
pub(crate) fn gutter(ticks: &[Tick]) -> f64 {
    let wide = ticks.iter().map(|t| width(&t.text, SIZE));
    wide.fold(0.0, f64::max) + NEAR
}

/// Level ticks, their figures left of the plot.
pub(crate) fn levels(chart: &mut Chart, plot: Frame, ticks: &[Tick]) {
    for tick in ticks {
        let ends = vec![at(plot.left, tick.at), at(plot.right, tick.at)];
        chart.line(tick.ink(), ends);
    }
    for tick in told(ticks, |_| block(1)) {
        let place = (plot.left - NEAR, tick.at - block(1) / 2.0);
        let text = std::slice::from_ref(&tick.text);
        chart.words(text, place, Align::End);
    }
}

/// Upright ticks across a plot, without figures.
pub(crate) fn uprights(chart: &mut Chart, plot: Frame, ticks: &[Tick]) {
    for tick in ticks {
        let ends = vec![at(tick.at, plot.top), at(tick.at, plot.bottom)];
        chart.line(tick.ink(), ends);
    }
}

/// The figures of upright ticks, below a plot that ends at `bottom`, and below them what they count.
pub(crate) fn figures(chart: &mut Chart, plot: Frame, ticks: &[Tick], what: &str) {
    let top = plot.bottom + BELOW;
    for tick in evenly(ticks, |t| width(&t.text, SIZE) + APART) {
        let text = std::slice::from_ref(&tick.text);
        chart.words(text, (tick.at, top), Align::Middle);
    }
    let middle = (plot.left + plot.right) / 2.0;
    let below = top + block(1) + APART / 2.0;
    chart.words(&[what.to_owned()], (middle, below), Align::Middle);
}

/// How tall the figures and what they count are, mm.
pub(crate) const FIGURES: f64 = BELOW + 2.0 * (ASCENT + DESCENT) * SIZE + APART;

/// All ticks where their figures have room, else every main one, every second or so: with gaps between them that
/// differ a scale seems to leave out what it does not.
fn evenly(ticks: &[Tick], long: impl Fn(&Tick) -> f64) -> Vec<&Tick> {
    let room = |tried: &Vec<&Tick>| {
        let apart = |p: &[&Tick]| (p[1].at - p[0].at).abs() >= (long(p[0]) + long(p[1])) / 2.0;
        tried.windows(2).all(apart)
    };
    let main: Vec<&Tick> = ticks.iter().filter(|t| t.main).collect();
    let every = |n: usize| main.iter().step_by(n).copied().collect::<Vec<&Tick>>();
    let all = std::iter::once(ticks.iter().collect());
    let fewer = (1..main.len()).map(every);
    let found = all.chain(fewer).find(room);
    found.unwrap_or_else(|| told(ticks, long))
}

/// The ticks whose figures have room, the main ones first.
fn told(ticks: &[Tick], long: impl Fn(&Tick) -> f64) -> Vec<&Tick> {
    let mut kept: Vec<&Tick> = Vec::new();
    let (main, lesser): (Vec<&Tick>, Vec<&Tick>) = ticks.iter().partition(|t| t.main);
    for tick in main.into_iter().chain(lesser) {
        let free = |k: &&Tick| (k.at - tick.at).abs() >= (long(k) + long(tick)) / 2.0;
        if kept.iter().all(free) {
            kept.push(tick);
        }
    }
    kept
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_lesser_figure_gives_way_to_a_main_one() {
        let tick = |at: f64, text: &str, main| Tick {
            at,
            text: text.to_owned(),
            main,
        };
        let ticks = [
            tick(0.0, "50", false),
            tick(2.0, "100", true),
            tick(20.0, "200", false),
        ];
        let kept = told(&ticks, |t| width(&t.text, SIZE));
        let texts: Vec<&str> = kept.iter().map(|t| t.text.as_str()).collect();
        assert_eq!(texts, ["100", "200"]);
    }

    #[test]
    fn of_main_ticks_without_room_every_second_is_told() {
        let tick = |n: u8| Tick {
            at: f64::from(n) * 4.0,
            text: "10 ms".to_owned(),
            main: true,
        };
        let ticks: Vec<Tick> = (0..9).map(tick).collect();
        let kept = evenly(&ticks, |t| width(&t.text, SIZE) - 3.0);
        let places: Vec<f64> = kept.iter().map(|t| t.at).collect();
        assert_eq!(places, [0.0, 8.0, 16.0, 24.0, 32.0]);
    }
}
