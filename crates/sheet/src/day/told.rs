//! The chart in words, for screen readers: each part of the day, then what was lowest and what went wrong.

use super::key::times;
use quantity::figures;
use study::Day;

/// The day as sentences.
pub(super) fn told(day: &Day, reserve: f64) -> String {
    let percent = |charge: f64| format!("{} %", figures(charge * 100.0, 3));
    let part = |p: &study::DayPart| {
        let on = if p.on.is_empty() {
            String::new()
        } else {
            format!(", on: {}", p.on.join(", "))
        };
        format!(
            "{} to {}: {}, {}{on}, charge at the end {}.",
            clock(p.from_h),
            clock(p.to_h),
            p.what,
            p.supply.word(),
            percent(p.charge)
        )
    };
    let mut out: Vec<String> = day.parts.iter().map(part).collect();
    out.push(format!(
        "Lowest charge {} at {}; it must stay above {}.",
        percent(day.lowest.0),
        clock(day.lowest.1),
        percent(reserve)
    ));
    if let Some(hour) = day.flat {
        out.push(format!("Battery empty at {}.", clock(hour)));
    }
    if !day.no_start.is_empty() {
        out.push(format!(
            "Engine started below the reserve: {}.",
            times(&day.no_start)
        ));
    }
    if !day.cut_out.is_empty() {
        out.push(format!("Cut-out let go: {}.", times(&day.cut_out)));
    }
    out.join(" ")
}

/// An hour of the day's list to the minute, as the report tells it: "45 min", "22 h 10 min".
pub(super) fn clock(hours: f64) -> String {
    let minutes = (hours * 60.0).round();
    let (whole, rest) = ((minutes / 60.0).floor(), minutes % 60.0);
    if minutes < 1.0 && hours > 0.0 {
        return format!("{} s", figures(hours * 3600.0, 2));
    }
    match (whole == 0.0, rest == 0.0) {
        (_, true) => format!("{whole:.0} h"),
        (true, _) => format!("{rest:.0} min"),
        _ => format!("{whole:.0} h {rest:.0} min"),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn hours_are_told_as_in_the_report() {
        let told = [(0.0, "0 h"), (0.75, "45 min"), (22.167, "22 h 10 min")];
        for (hours, text) in told {
            assert_eq!(clock(hours), text);
        }
    }
}
