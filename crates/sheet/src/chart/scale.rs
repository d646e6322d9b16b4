//! Straight scales: from a figure to its place on the sheet, and ticks at steps that a person counts in.

/// A straight scale: `from` stands at `start`, `to` at `end`, mm.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) struct Scale {
    pub from: f64,
    pub to: f64,
    pub start: f64,
    pub end: f64,
}

impl Scale {
    /// Where a figure stands, mm.
    pub fn at(&self, v: f64) -> f64 {
        self.start + (v - self.from) / (self.to - self.from) * (self.end - self.start)
    }

    /// The multiples of a step on it.
    pub fn ticks(&self, step: f64) -> Vec<f64> {
        // A hair wider, so that rounding loses no end.
        let (first, last) = (
            (self.from / step - 1e-9).ceil() as i64,
            (self.to / step + 1e-9).floor() as i64,
        );
        (first..=last).map(|n| n as f64 * step).collect()
    }
}

/// Steps within a decade.
const ONE_TWO_FIVE: [f64; 3] = [1.0, 2.0, 5.0];

/// The span of figures from the least to the most, widened to whole steps, and its step: at most so many, none
/// shorter than `finest`.
pub(crate) fn span((least, most): (f64, f64), steps: f64, finest: f64) -> (f64, f64, f64) {
    let widened = |step: f64| {
        let from = (least / step + 1e-9).floor() * step;
        let to = ((most / step - 1e-9).ceil() * step).max(from + step);
        (from, to, step)
    };
    let few = |(from, to, step): &(f64, f64, f64)| (to - from) / step <= steps.max(1.0) + 1e-9;
    let decade = finest.log10().floor() as i32;
    let decades = decade..decade + 30;
    let all = decades.flat_map(|d| ONE_TWO_FIVE.map(|m| m * 10f64.powi(d)));
    let mut wide = all.filter(|s| *s > finest * 0.999).map(widened);
    wide.find(few)
        .unwrap_or_else(|| widened((most - least).max(1.0)))
}

/// A figure of a scale with this step, as a tick bears it.
pub(crate) fn decimal(v: f64, step: f64) -> String {
    let decimals = (-step.log10() - 1e-9).ceil().clamp(0.0, 9.0) as usize;
    format!("{v:.decimals$}")
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn figures_are_spanned_in_whole_steps() {
        assert_eq!(span((12.1, 14.4), 5.0, 0.2), (12.0, 14.5, 0.5));
        assert_eq!(span((9.6, 14.4), 5.0, 0.2), (8.0, 16.0, 2.0));
        let (from, to, step) = span((12.0, 12.0), 5.0, 0.2);
        assert_eq!((from, (to * 1e9).round() / 1e9, step), (12.0, 12.2, 0.2));
        assert_eq!(span((0.0, 431.0), 6.0, 0.1), (0.0, 500.0, 100.0));
    }

    #[test]
    fn a_tick_has_as_many_decimals_as_its_step() {
        assert_eq!(decimal(12.0, 0.5), "12.0");
        assert_eq!(decimal(12.0, 2.0), "12");
        assert_eq!(decimal(0.25, 0.05), "0.25");
    }
}
