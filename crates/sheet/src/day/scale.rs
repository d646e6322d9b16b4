//! Steps of hours that a person counts in.

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

#[cfg(test)]
mod tests {
    use super::*;
    use crate::chart::Scale;

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
}
