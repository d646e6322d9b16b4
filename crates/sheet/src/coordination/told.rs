//! The chart in words, for screen readers.

use super::CoordinationNames;
use super::margin::Margin;
use quantity::figures;
use study::Coordination;

/// The pair as sentences.
pub(super) fn told(c: &Coordination, names: &CoordinationNames) -> String {
    let amps = |a: f64| format!("{} A", figures(a, 3));
    let mut out = vec![format!("{} protects {}.", names.fuse, names.wire)];
    out.push(format!(
        "From {} to {} no opening is promised.",
        amps(c.gap.0),
        amps(c.gap.1)
    ));
    if let Some((least, _)) = c.damage.first() {
        out.push(format!("The wire is harmed from {} on.", amps(*least)));
    }
    if c.load > 0.0 {
        out.push(format!("{} draws {}.", names.load, amps(c.load)));
    }
    if let Some((low, high)) = c.faults {
        let (low, high) = (amps(low), amps(high));
        out.push(format!("Fault currents from {low} to {high}."));
    }
    out.push(match Margin::of(c) {
        Some(m) if m.times < 1.0 => {
            format!("The wire is harmed before the fuse opens: {}.", m.told())
        }
        Some(m) => format!(
            "The wire bears it longer than the fuse takes: {}.",
            m.told()
        ),
        None => "There is no margin to tell.".to_owned(),
    });
    out.join(" ")
}
