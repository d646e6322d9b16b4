//! The strip above a plot: words for what is marked at some places of its width, side by side, each with a leader
//! to its place.

use super::{Chart, LEADER, block, spread};
use crate::geometry::at;
use crate::label::Align;
use crate::text::{SIZE, width, wrap_figures};

/// Words may be as wide as this, from the widest down to what still holds a figure with its unit, mm.
const WIDTHS: [f64; 9] = [60.0, 48.0, 40.0, 34.0, 29.0, 25.0, 22.0, 19.0, 16.0];
/// Free between two of them, mm.
const BETWEEN: f64 = 2.0;
/// Height of the leaders, mm.
const LEADERS: f64 = 5.0;
/// From words to their leader, how far it falls straight, and how far above the plot: beside the highest figure of
/// a scale, mm.
const NEAR: f64 = 0.4;
const STRAIGHT: f64 = 1.0;
const LOWEST: f64 = 2.0;

/// Words with the place that they are about.
struct About {
    lines: Vec<String>,
    place: f64,
    middle: f64,
}

/// Words above a plot.
pub(crate) struct Strip(Vec<About>);

impl Strip {
    /// Of words with their places, between two ends, in so many lines at most; none where they don't fit.
    pub fn of(marks: &[(f64, String)], ends: (f64, f64), lines: usize) -> Option<Self> {
        WIDTHS
            .iter()
            .find_map(|w| Self::in_width(marks, ends, (*w, lines)))
    }

    fn in_width(
        marks: &[(f64, String)],
        ends: (f64, f64),
        (most, lines): (f64, usize),
    ) -> Option<Self> {
        let whole = |(_, text): &(f64, String)| {
            text.split_whitespace().all(|w| width(w, SIZE) <= most)
                && wrap_figures(text, SIZE, most).len() <= lines
        };
        if !marks.iter().all(whole) {
            return None;
        }
        let mut sorted: Vec<&(f64, String)> = marks.iter().collect();
        sorted.sort_by(|a, b| a.0.total_cmp(&b.0));
        let broken = sorted
            .iter()
            .map(|(x, text)| (*x, wrap_figures(text, SIZE, most)));
        let broken: Vec<(f64, Vec<String>)> = broken.collect();
        let widest = |l: &[String]| l.iter().map(|l| width(l, SIZE)).fold(0.0, f64::max);
        let wanted: Vec<(f64, f64)> = broken
            .iter()
            .map(|(x, l)| (*x, widest(l) + BETWEEN))
            .collect();
        if wanted.iter().map(|(_, w)| w).sum::<f64>() > ends.1 - ends.0 {
            return None;
        }
        let about = |((place, lines), middle)| About {
            lines,
            place,
            middle,
        };
        let middles = spread(&wanted, ends);
        Some(Self(broken.into_iter().zip(middles).map(about).collect()))
    }

    /// How tall it is, mm; nothing where nothing is marked.
    pub fn height(&self) -> f64 {
        let tall = self.0.iter().map(|a| block(a.lines.len()) + LEADERS);
        tall.fold(0.0, f64::max)
    }

    /// Puts it above a plot whose top is `bottom`.
    pub fn place(&self, chart: &mut Chart, bottom: f64) {
        let foot = bottom - LEADERS;
        for About {
            lines,
            place,
            middle,
        } in &self.0
        {
            let top = foot - block(lines.len());
            chart.words(lines, (*middle, top), Align::Middle);
            let points = vec![
                at(*middle, foot + NEAR),
                at(*middle, foot + NEAR + STRAIGHT),
                at(*place, bottom - LOWEST),
                at(*place, bottom),
            ];
            chart.line(LEADER, points);
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn marks(places: &[f64]) -> Vec<(f64, String)> {
        let words = |x: &f64| (*x, "F1 opens, 0.12 s".to_owned());
        places.iter().map(words).collect()
    }

    #[test]
    fn words_with_room_stand_in_one_line_above_their_places() {
        let strip = Strip::of(&marks(&[30.0, 70.0]), (0.0, 100.0), 3).unwrap();
        let middles: Vec<f64> = strip.0.iter().map(|a| a.middle).collect();
        assert_eq!(middles, [30.0, 70.0]);
        assert_eq!(strip.height(), block(1) + LEADERS);
    }

    #[test]
    fn crowded_words_are_broken_and_too_many_do_not_fit() {
        let strip = Strip::of(&marks(&[50.0; 5]), (0.0, 100.0), 3).unwrap();
        assert!(strip.0.iter().all(|a| a.lines.len() > 1));
        assert!(Strip::of(&marks(&[50.0; 20]), (0.0, 100.0), 3).is_none());
    }
}
