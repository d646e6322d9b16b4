//! The common scale of time: tenfolds from the first moment where there are two of them or more, else even from the
//! fault on.

use crate::chart::ticks::Tick;
use crate::chart::{Log, Scale, decimal, span, time, time_steps, widened};

/// So many times the first moment the last is at least for a scale of tenfolds.
const TWO_DECADES: f64 = 100.0;
/// Steps of an even scale at most.
const STEPS: f64 = 8.0;
/// Units of an even scale, the longest first, s; one is taken of which there are two at least.
const UNITS: [(f64, &str); 4] = [(3600.0, "h"), (60.0, "min"), (1.0, "s"), (1e-3, "ms")];

/// Where a moment stands.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) enum Axis {
    Even(Scale),
    /// With the range of its seconds.
    Tenfolds(Log, (f64, f64)),
}

impl Axis {
    /// For these moments, between two ends.
    pub fn of(moments: impl Iterator<Item = f64>, ends: (f64, f64)) -> Self {
        let later = moments.filter(|s| s.is_finite() && *s > 0.0);
        let whole = later.map(|s| (s, s));
        let whole = whole.reduce(|a, b| (a.0.min(b.0), a.1.max(b.1)));
        let (first, last) = whole.unwrap_or((1.0, 1.0));
        if last < first * TWO_DECADES {
            return Self::Even(Scale {
                from: 0.0,
                to: last,
                start: ends.0,
                end: ends.1,
            });
        }
        let steps = time_steps((first / 10.0, last * 10.0));
        let steps: Vec<f64> = steps.into_iter().map(|(s, _)| s).collect();
        let range = widened((first, last), &steps);
        Self::Tenfolds(Log::new(range, ends), range)
    }

    /// Where a moment stands, mm; one before the scale, as the fault itself is to tenfolds, where it begins.
    pub fn at(&self, seconds: f64) -> f64 {
        match self {
            Self::Even(scale) => scale.at(seconds.max(scale.from)),
            Self::Tenfolds(scale, range) => scale.at(seconds.max(range.0)),
        }
    }

    /// Where it begins and ends, mm.
    pub fn ends(&self) -> (f64, f64) {
        match self {
            Self::Even(scale) => (scale.start, scale.end),
            Self::Tenfolds(scale, range) => (scale.at(range.0), scale.at(range.1)),
        }
    }

    /// Its ticks, and what they count.
    pub fn ticks(&self) -> (Vec<Tick>, String) {
        match self {
            Self::Even(scale) => even(scale),
            Self::Tenfolds(scale, range) => {
                let tick = |(s, main): (f64, bool)| Tick {
                    at: scale.at(s),
                    text: time(s),
                    main,
                };
                let all = time_steps(*range).into_iter().map(tick);
                (all.collect(), "time after the fault".to_owned())
            }
        }
    }
}

fn even(scale: &Scale) -> (Vec<Tick>, String) {
    let two = |(unit, _): &&(f64, &str)| scale.to >= 2.0 * unit;
    let (unit, word) = UNITS.iter().find(two).unwrap_or(&UNITS[UNITS.len() - 1]);
    let counted = Scale {
        to: scale.to / unit,
        ..*scale
    };
    let (_, _, step) = span((0.0, counted.to), STEPS, 1e-6);
    let tick = |v: f64| Tick {
        at: counted.at(v),
        text: decimal(v, step),
        main: true,
    };
    let ticks = counted.ticks(step).into_iter().map(tick).collect();
    (ticks, format!("time after the fault, {word}"))
}

#[cfg(test)]
mod tests {
    use super::*;

    fn told(moments: &[f64]) -> (Vec<String>, String) {
        let axis = Axis::of(moments.iter().copied(), (0.0, 100.0));
        let (ticks, what) = axis.ticks();
        (ticks.into_iter().map(|t| t.text).collect(), what)
    }

    #[test]
    fn under_two_decades_time_is_even_and_in_one_unit() {
        let (ticks, what) = told(&[0.0, 60.0, 300.0]);
        assert_eq!(
            (&ticks[..], &*what),
            (
                &["0", "1", "2", "3", "4", "5"].map(String::from)[..],
                "time after the fault, min"
            )
        );
    }

    #[test]
    fn from_two_decades_on_time_goes_by_tenfolds() {
        let (ticks, what) = told(&[0.0, 0.01, 3.0]);
        assert_eq!(ticks.first().map(String::as_str), Some("10 ms"));
        assert_eq!(ticks.last().map(String::as_str), Some("5 s"));
        assert_eq!(what, "time after the fault");
    }

    #[test]
    fn a_fault_with_no_moment_has_a_scale() {
        assert_eq!(told(&[]).1, "time after the fault, ms");
    }
}
