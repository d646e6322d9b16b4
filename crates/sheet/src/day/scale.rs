//! Scales: from a figure to its place on the sheet, and ticks at steps that a person counts in.

/// A straight scale: `from` stands at `start`, `to` at `end`, mm.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Scale {
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

/// Steps of hours, as a clock divides them; beyond a week, weeks.
const HOURS: [f64; 15] = [
    1.0 / 60.0,
    1.0 / 30.0,
    1.0 / 12.0,
    1.0 / 6.0,
    0.25,
    0.5,
    1.0,
    2.0,
    3.0,
    6.0,
    12.0,
    24.0,
    48.0,
    72.0,
    168.0,
];
/// So many steps at most: a day gets a tick every three hours.
const MOST_HOURS: f64 = 9.0;

/// The step of the ticks along so many hours.
pub(super) fn hour_step(hours: f64) -> f64 {
    let wide = HOURS.iter().find(|s| hours / **s <= MOST_HOURS);
    wide.copied()
        .unwrap_or_else(|| (hours / MOST_HOURS / 168.0).ceil() * 168.0)
}

/// An hour as a tick bears it: whole hours, or hours and minutes.
pub(super) fn hour_tick(hour: f64, step: f64) -> String {
    if step >= 1.0 {
        return format!("{hour:.0}");
    }
    let minutes = (hour * 60.0).round() as i64;
    format!("{}:{:02}", minutes / 60, minutes % 60)
}

/// Steps of volts.
const VOLTS: [f64; 6] = [0.2, 0.5, 1.0, 2.0, 5.0, 10.0];

/// The span of volts from the least to the most, widened to whole steps, and its step: at most so many.
pub(super) fn volt_span((least, most): (f64, f64), steps: f64) -> (f64, f64, f64) {
    let span = |step: f64| {
        let from = (least / step + 1e-9).floor() * step;
        let to = ((most / step - 1e-9).ceil() * step).max(from + step);
        (from, to, step)
    };
    let few = |(from, to, step): &(f64, f64, f64)| (to - from) / step <= steps + 1e-9;
    let last = VOLTS[VOLTS.len() - 1];
    VOLTS
        .iter()
        .map(|s| span(*s))
        .find(few)
        .unwrap_or_else(|| span(last))
}

/// Volts as a tick bears them.
pub(super) fn volt_tick(volts: f64, step: f64) -> String {
    let decimals = usize::from(step < 1.0);
    format!("{volts:.decimals$}")
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_day_has_a_tick_every_three_hours() {
        assert_eq!(hour_step(24.0), 3.0);
        let hours = Scale {
            from: 0.0,
            to: 24.0,
            start: 0.0,
            end: 240.0,
        };
        let ticks: Vec<String> = hours
            .ticks(3.0)
            .iter()
            .map(|h| hour_tick(*h, 3.0))
            .collect();
        assert_eq!(ticks, ["0", "3", "6", "9", "12", "15", "18", "21", "24"]);
        assert_eq!(hours.at(6.0), 60.0);
    }

    #[test]
    fn short_lists_are_ticked_in_minutes_and_long_ones_in_days() {
        assert_eq!(hour_step(0.75), 1.0 / 12.0);
        assert_eq!(hour_tick(0.75, 0.25), "0:45");
        assert_eq!(hour_step(14.0 * 24.0), 48.0);
        assert_eq!(hour_step(9.0 * 168.0 + 1.0), 336.0);
    }

    #[test]
    fn volts_are_spanned_in_whole_steps() {
        assert_eq!(volt_span((12.1, 14.4), 5.0), (12.0, 14.5, 0.5));
        assert_eq!(volt_span((9.6, 14.4), 5.0), (8.0, 16.0, 2.0));
        assert_eq!(volt_span((12.0, 12.0), 5.0), (12.0, 12.2, 0.2));
    }
}
