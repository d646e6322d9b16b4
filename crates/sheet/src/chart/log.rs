//! Scales on which each tenfold is as long as the next, with their steps: currents by one, two and five in every
//! decade, times in the units that a person counts them in.

use super::Scale;
use quantity::figures;

/// A logarithmic scale, a straight one of the powers of ten.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) struct Log(Scale);

impl Log {
    /// From one figure to another, between two places on the sheet, mm.
    pub fn new((from, to): (f64, f64), (start, end): (f64, f64)) -> Self {
        Self(Scale {
            from: from.log10(),
            to: to.log10(),
            start,
            end,
        })
    }

    /// Where a figure stands, mm; what is nought or less stands where the scale begins.
    pub fn at(&self, v: f64) -> f64 {
        if v > 0.0 {
            self.0.at(v.log10())
        } else {
            self.0.start
        }
    }
}

/// The steps of currents from one figure to another: whole decades are the main ones.
pub(crate) fn current_steps((from, to): (f64, f64)) -> Vec<(f64, bool)> {
    let decades = from.log10().floor() as i32 - 1..to.log10().ceil() as i32 + 1;
    let all = decades.flat_map(|d| [1.0, 2.0, 5.0].map(|m| (m * 10f64.powi(d), m == 1.0)));
    within(all, (from, to))
}

/// Steps of times beyond ten seconds, which no decade divides well; the main ones are true.
const LONGER: [(f64, bool); 17] = [
    (10.0, true),
    (20.0, false),
    (30.0, false),
    (60.0, true),
    (120.0, false),
    (300.0, false),
    (600.0, true),
    (1200.0, false),
    (1800.0, false),
    (3600.0, true),
    (7200.0, false),
    (18_000.0, false),
    (36_000.0, true),
    (72_000.0, false),
    (180_000.0, false),
    (360_000.0, true),
    (3_600_000.0, true),
];

/// The steps of times from one to another, s, from a microsecond on.
pub(crate) fn time_steps((from, to): (f64, f64)) -> Vec<(f64, bool)> {
    let short = (-6..1).flat_map(|d| [1.0, 2.0, 5.0].map(|m| (m * 10f64.powi(d), m == 1.0)));
    within(short.chain(LONGER), (from, to))
}

/// A range reaching outwards to the nearest of these steps; as it is where there is none.
pub(crate) fn widened((from, to): (f64, f64), steps: &[f64]) -> (f64, f64) {
    let below = steps.iter().rev().find(|s| **s <= from * 1.0001);
    let above = steps.iter().find(|s| **s >= to * 0.9999);
    (below.copied().unwrap_or(from), above.copied().unwrap_or(to))
}

fn within(steps: impl Iterator<Item = (f64, bool)>, (from, to): (f64, f64)) -> Vec<(f64, bool)> {
    // A hair wider, so that rounding loses no end.
    let inside = |(v, _): &(f64, bool)| *v > from * 0.9999 && *v < to * 1.0001;
    steps.filter(inside).collect()
}

/// A time in the unit that fits it: "5 ms", "0.2 s", "10 min".
pub(crate) fn time(seconds: f64) -> String {
    let (unit, word) = match seconds {
        s if s >= 3599.0 => (3600.0, "h"),
        s if s >= 59.9 => (60.0, "min"),
        s if s >= 0.0999 || s <= 0.0 => (1.0, "s"),
        s if s >= 0.000_999 => (1e-3, "ms"),
        _ => (1e-6, "µs"),
    };
    format!("{} {word}", figures(seconds / unit, 3))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn each_tenfold_is_as_long_as_the_next() {
        let scale = Log::new((1.0, 100.0), (0.0, 50.0));
        assert_eq!((scale.at(10.0), scale.at(0.0)), (25.0, 0.0));
    }

    #[test]
    fn times_step_in_their_units() {
        let main: Vec<String> = time_steps((1e-3, 36_000.0))
            .into_iter()
            .filter(|(_, main)| *main)
            .map(|(s, _)| time(s))
            .collect();
        let wanted = [
            "1 ms", "10 ms", "0.1 s", "1 s", "10 s", "1 min", "10 min", "1 h", "10 h",
        ];
        assert_eq!(main, wanted);
    }

    #[test]
    fn currents_step_by_one_two_and_five() {
        let steps: Vec<f64> = current_steps((5.0, 100.0)).iter().map(|s| s.0).collect();
        assert_eq!(steps, [5.0, 10.0, 20.0, 50.0, 100.0]);
    }
}
