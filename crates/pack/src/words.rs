//! Figures and lists as a person says them: "3 days 4 h", "60 %", "lamp, pump and fan". Takes plain numbers
//! and names, gives text.

use quantity::{Quantity, amperes, celsius, figures};

/// Up to here a time is told to the minute, h; above it in whole fives of them, since nobody knows it better.
const TO_THE_MINUTE: f64 = 1.0;
/// From here up in whole tens of minutes, h.
const TO_TEN_MINUTES: f64 = 10.0;
/// From here up it is told in days, h.
const IN_DAYS: f64 = 24.0;
/// From here up hours are left out, h.
const TO_THE_DAY: f64 = 240.0;
/// Beyond it a battery's own ageing decides, which nothing here follows, h.
const A_YEAR: f64 = 365.0 * 24.0;

/// How long, no finer than it is known: "45 min", "1 h 20 min", "18 h 40 min", "1 day 2 h", "23 days"; without
/// end "as long as the battery keeps". It follows "for" and "after".
pub(crate) fn duration(hours: f64) -> String {
    if !hours.is_finite() {
        return "as long as the battery keeps".into();
    }
    let minutes = (hours * 60.0).round();
    if minutes < 1.0 {
        return "less than a minute".into();
    }
    if minutes < 60.0 * TO_THE_MINUTE {
        return format!("{minutes:.0} min");
    }
    let step = if hours < TO_TEN_MINUTES { 5.0 } else { 10.0 };
    let steps = (hours * 60.0 / step).round() * step;
    if steps < 60.0 * IN_DAYS {
        return two((steps / 60.0).floor(), "h", steps % 60.0, "min");
    }
    let whole = hours.round();
    if whole < TO_THE_DAY {
        let days = (whole / 24.0).floor();
        let unit = if days == 1.0 { "day" } else { "days" };
        return two(days, unit, whole % 24.0, "h");
    }
    if hours <= A_YEAR {
        return format!("{:.0} days", hours / 24.0);
    }
    "more than a year".into()
}

/// An hour of the day's list, or how long a part of it lasts, to the minute: "45 min", "22 h 10 min". It is told
/// in hours however many there are, as the chart counts them.
pub(crate) fn clock(hours: f64) -> String {
    let minutes = (hours * 60.0).round();
    if minutes < 1.0 && hours > 0.0 {
        return format!("{} s", figures(hours * 3600.0, 2));
    }
    if minutes > 0.0 && minutes < 60.0 {
        return format!("{minutes:.0} min");
    }
    two((minutes / 60.0).floor(), "h", minutes % 60.0, "min")
}

/// Two units, the smaller left out when there is none of it.
fn two(large: f64, unit: &str, small: f64, smaller: &str) -> String {
    if small == 0.0 {
        format!("{large:.0} {unit}")
    } else {
        format!("{large:.0} {unit} {small:.0} {smaller}")
    }
}

/// A charge or another part of a whole: "60 %". No more is known of a battery.
pub(crate) fn percent(part: f64) -> String {
    format!("{:.0} %", part * 100.0)
}

/// A current below this is not told by its figure, A: nothing that draws so little matters, and no meter in a
/// vehicle reads it.
const LEAST: f64 = 1e-3;

/// A current: "12 A", "30 mA".
pub(crate) fn amps(a: f64) -> String {
    if a != 0.0 && a.abs() < LEAST {
        return "less than 1 mA".into();
    }
    amperes(a).show()
}

/// A voltage: "13.2 V".
pub(crate) fn volts(v: f64) -> String {
    format!("{} V", figures(v, 3))
}

/// A temperature: "-5 °C".
pub(crate) fn degrees(c: f64) -> String {
    celsius(c).show()
}

/// "1 switch", "3 switches", "no switch".
pub(crate) fn counted(n: usize, one: &str, many: &str) -> String {
    match n {
        0 => format!("no {one}"),
        1 => format!("1 {one}"),
        n => format!("{n} {many}"),
    }
}

/// Whether a name is of several things, as far as its last letters tell: "rack lamps", "fan and fridge".
pub(crate) fn several(name: &str) -> bool {
    let ends = |end| name.ends_with(end);
    name.contains(" and ") || ends("s") && !ends("ss") && !ends("us")
}

/// A sentence's beginning.
pub(crate) fn capital(text: &str) -> String {
    let mut letters = text.chars();
    let first = letters.next();
    first.map_or_else(String::new, |c| {
        c.to_uppercase().collect::<String>() + letters.as_str()
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn times_are_told_as_people_say_them() {
        let told = [
            (0.0, "less than a minute"),
            (0.75, "45 min"),
            (0.999, "1 h"),
            (4.0 / 3.0, "1 h 20 min"),
            (1.37, "1 h 20 min"),
            (9.99, "10 h"),
            (18.6, "18 h 40 min"),
            (19.2, "19 h 10 min"),
            (23.95, "1 day"),
            (26.2, "1 day 2 h"),
            (47.6, "2 days"),
            (76.1, "3 days 4 h"),
            (239.7, "10 days"),
            (23.0 * 24.0, "23 days"),
            (9000.0, "more than a year"),
            (f64::INFINITY, "as long as the battery keeps"),
        ];
        for (hours, text) in told {
            assert_eq!(duration(hours), text, "{hours} h");
        }
    }

    #[test]
    fn hours_of_a_day_are_told_to_the_minute() {
        let told = [
            (0.0, "0 h"),
            (0.004, "14 s"),
            (0.75, "45 min"),
            (3.0, "3 h"),
            (22.167, "22 h 10 min"),
            (49.5, "49 h 30 min"),
        ];
        for (hours, text) in told {
            assert_eq!(clock(hours), text, "{hours} h");
        }
    }

    #[test]
    fn lists_and_counts_are_told_as_people_say_them() {
        assert_eq!(counted(0, "switch", "switches"), "no switch");
        assert_eq!(counted(3, "switch", "switches"), "3 switches");
        assert_eq!(capital("earth"), "Earth");
        assert_eq!(amps(0.03), "30 mA");
        assert_eq!(amps(0.000_16), "less than 1 mA");
    }

    #[test]
    fn several_things_run_and_one_thing_runs() {
        assert!(several("rack lamps") && several("fan and fridge"));
        assert!(!several("transfer pump") && !several("compass") && !several("bus"));
    }
}
