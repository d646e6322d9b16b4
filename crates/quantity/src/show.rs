//! Numbers as a person reads them: few figures, no trailing zeros, no exponent.

/// `v` rounded to `n` significant figures, without an exponent and without trailing zeros.
pub fn figures(v: f64, n: usize) -> String {
    if v == 0.0 {
        return "0".to_owned();
    }
    if !v.is_finite() {
        return v.to_string();
    }
    let magnitude = v.abs().log10().floor() as i32;
    let decimals = (n as i32 - 1 - magnitude).clamp(0, 9) as usize;
    let shown = format!("{v:.decimals$}");
    // Rounding may have carried into a new figure (9.996 -> 10.00).
    let carried = shown.parse::<f64>().map_or(0, |r| {
        if r == 0.0 {
            0
        } else {
            r.abs().log10().floor() as i32
        }
    });
    if carried > magnitude && decimals > 0 {
        let fewer = decimals - 1;
        return trim_zeros(&format!("{v:.fewer$}"));
    }
    trim_zeros(&shown)
}

/// Drops trailing zeros after a decimal point: "2.50" becomes "2.5", "4.0" becomes "4".
pub fn trim_zeros(text: &str) -> String {
    let kept = if text.contains('.') {
        text.trim_end_matches('0').trim_end_matches('.')
    } else {
        text
    };
    if kept == "-0" {
        "0".to_owned()
    } else {
        kept.to_owned()
    }
}

/// A time of so many seconds: "0.5 s", "90 s", "15 min", "1 h 30 min", "2.5 days". From 1 h up it is
/// told to the minute, from two days up in days.
pub(crate) fn time(seconds: f64) -> String {
    const MINUTE: f64 = 60.0;
    const HOUR: f64 = 60.0 * MINUTE;
    const DAY: f64 = 24.0 * HOUR;
    let size = seconds.abs();
    if size >= 2.0 * DAY {
        return format!("{} days", figures(seconds / DAY, 3));
    }
    // What rounds to 60.0 min is told as an hour.
    if size >= 59.95 * MINUTE {
        let minutes = (size / MINUTE).round();
        let (hours, rest) = ((minutes / 60.0).floor(), minutes % 60.0);
        let sign = if seconds < 0.0 { "-" } else { "" };
        return if rest == 0.0 {
            format!("{sign}{hours:.0} h")
        } else {
            format!("{sign}{hours:.0} h {rest:.0} min")
        };
    }
    // A minute and a half is 90 s to whoever holds the watch; a whole minute is a minute.
    if size >= 2.0 * MINUTE || size == MINUTE {
        return format!("{} min", figures(seconds / MINUTE, 3));
    }
    format!("{} s", figures(seconds, 3))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn times_are_told_as_people_say_them() {
        let told = [
            (0.0, "0 s"),
            (0.5, "0.5 s"),
            (60.0, "1 min"),
            (90.0, "90 s"),
            (900.0, "15 min"),
            (3599.0, "1 h"),
            (5400.0, "1 h 30 min"),
            (7200.0, "2 h"),
            (129_600.0, "36 h"),
            (172_799.0, "48 h"),
            (216_000.0, "2.5 days"),
            (1_209_600.0, "14 days"),
        ];
        for (seconds, text) in told {
            assert_eq!(time(seconds), text);
        }
    }

    #[test]
    fn three_figures_without_trailing_zeros() {
        assert_eq!(figures(4.5, 3), "4.5");
        assert_eq!(figures(9.996, 3), "10");
        assert_eq!(figures(0.012345, 3), "0.0123");
        assert_eq!(figures(123_456.0, 3), "123456");
        assert_eq!(figures(0.0, 3), "0");
    }
}
