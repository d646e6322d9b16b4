//! What the key of a day explains; marks with when and what.

use super::told::clock;
use super::{CHARGE, ON, RESERVE, VOLTS, tint};
use crate::chart::{Sample, Sign};
use plan::SupplyState;
use study::Day;

/// So many times are told of one thing; of more, how many.
const TIMES: usize = 3;

/// What there is to explain.
pub(super) fn wanted(day: &Day) -> Vec<(Sample, String)> {
    let there = |s: &SupplyState| day.parts.iter().any(|p| p.supply == *s);
    let state = |s: SupplyState| (Sample::Box(tint(s)), s.word().to_owned());
    let mut out: Vec<(Sample, String)> = SupplyState::ALL
        .into_iter()
        .filter(there)
        .map(state)
        .collect();
    let lines = [
        (CHARGE, "charge"),
        (RESERVE, "must stay above"),
        (VOLTS, "voltage"),
    ];
    out.extend(lines.map(|(ink, word)| (Sample::Line(ink), word.to_owned())));
    if day.parts.iter().any(|p| !p.on.is_empty()) {
        out.push((Sample::Box(ON), "on".to_owned()));
    }
    if !day.no_start.is_empty() {
        let said = format!("engine started below the reserve: {}", times(&day.no_start));
        out.push((Sample::Mark(Sign::CrossedRing), said));
    }
    if !day.cut_out.is_empty() {
        let said = format!("cut-out let go: {}", times(&day.cut_out));
        out.push((Sample::Mark(Sign::Diamond), said));
    }
    out
}

/// Hours with what happened then, by what: “fridge at 6 h 10 min, 9 h; …”.
pub(super) fn times(events: &[(f64, String)]) -> String {
    let mut by_what: Vec<(&String, Vec<f64>)> = Vec::new();
    for (hour, what) in events {
        match by_what.iter_mut().find(|(w, _)| *w == what) {
            Some((_, hours)) => hours.push(*hour),
            None => by_what.push((what, vec![*hour])),
        }
    }
    let told = |(what, hours): &(&String, Vec<f64>)| {
        let said = hours.iter().take(TIMES);
        let said: Vec<String> = said.map(|h| clock(*h)).collect();
        let more = match hours.len().saturating_sub(TIMES) {
            0 => String::new(),
            n => format!(" and {n} times more"),
        };
        format!("{what} at {}{more}", said.join(", "))
    };
    by_what.iter().map(told).collect::<Vec<_>>().join("; ")
}
