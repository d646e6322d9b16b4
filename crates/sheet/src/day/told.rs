//! The chart in words, for screen readers: each part of the day, then what was lowest and what went wrong.

use super::key::times;
use quantity::figures;
use study::Day;

/// The day as sentences.
pub(super) fn told(day: &Day, reserve: f64) -> String {
    let percent = |charge: f64| format!("{} %", figures(charge * 100.0, 3));
    let hour = |h: f64| figures(h, 3);
    let part = |p: &study::DayPart| {
        let on = if p.on.is_empty() {
            String::new()
        } else {
            format!(", on: {}", p.on.join(", "))
        };
        format!(
            "{} to {} h: {}, {}{on}, charge at the end {}.",
            hour(p.from_h),
            hour(p.to_h),
            p.what,
            p.supply.word(),
            percent(p.charge)
        )
    };
    let mut out: Vec<String> = day.parts.iter().map(part).collect();
    out.push(format!(
        "Lowest charge {} at {} h; it must stay above {}.",
        percent(day.lowest.0),
        hour(day.lowest.1),
        percent(reserve)
    ));
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
