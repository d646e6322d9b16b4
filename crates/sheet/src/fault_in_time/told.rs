//! The chart in words, for screen readers: what came of the fault, what happened when, and how far each line goes.

use super::FaultInTime;
use super::curves;
use super::events;

/// The fault as sentences.
pub(super) fn told(f: &FaultInTime) -> String {
    let mut out = Vec::new();
    if !f.says.is_empty() {
        out.push(f.says.clone());
    }
    if !f.events.is_empty() {
        let said: Vec<String> = f.events.iter().map(events::told).collect();
        out.push(format!("{}.", said.join("; ")));
    }
    for plot in &f.plots {
        for line in &plot.lines {
            let known = line.values.iter().flatten().copied();
            let whole = known.filter(|v| v.is_finite()).map(|v| (v, v));
            let whole = whole.reduce(|a, b| (a.0.min(b.0), a.1.max(b.1)));
            let limit = line
                .limit
                .map(|l| format!(", limit {}", curves::told(l, plot)));
            if let Some((least, most)) = whole {
                out.push(format!(
                    "{}, {}: {} to {}{}.",
                    plot.title,
                    line.name,
                    curves::told(least, plot),
                    curves::told(most, plot),
                    limit.unwrap_or_default()
                ));
            }
        }
    }
    out.join(" ")
}
