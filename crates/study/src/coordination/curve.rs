//! The damage curve of a wire: at each current, how long until it passes its damage limit or its insulation's life is
//! used up, from the temperature of normal use, as it lies.

use crate::answers::Answers;
use crate::design::Design;
use crate::overload::Overload;
use loom::WireId;

/// Currents of a curve: twice as many leave the margins of the examples as they are, to two figures.
const CURRENTS: usize = 24;
/// Longest time that is followed, s; a steady temperature is reckoned on from there.
const LONGEST_S: f64 = 3600.0;
/// What stands for a time that could not be worked out, s: no time at all, so that the margin shows it.
const UNKNOWN_S: f64 = 1e-3;
/// A time that nobody asks beyond, s: a year.
const FOR_EVER_S: f64 = 3.2e7;

/// The curve between two currents, A; from the least that harms the wire within a year.
pub(super) fn damage(
    d: &Design,
    answers: &Answers,
    wire: WireId,
    (from, to): (f64, f64),
) -> Vec<(f64, f64)> {
    let overload = Overload::new(d, &answers.heat, wire);
    let step = |i: usize| from * (to / from).powf(i as f64 / CURRENTS as f64);
    let each = (0..=CURRENTS).map(step);
    let times = each.map(|amps| (amps, borne(&overload, amps)));
    times.filter(|(_, t)| *t < FOR_EVER_S).collect()
}

/// How long the wire bears a current, s.
fn borne(overload: &Overload, amps: f64) -> f64 {
    match overload.bear(amps, LONGEST_S) {
        Ok(fared) if fared.harmed => fared.seconds,
        Ok(fared) => fared.seconds + (1.0 - fared.life) * overload.bears.seconds(fared.kelvin),
        // Unknown is no better than harmed.
        Err(_) => UNKNOWN_S,
    }
}

/// A curve at a current: straight between points on log-log paper; none below the first.
pub(super) fn at(curve: &[(f64, f64)], amps: f64) -> Option<f64> {
    let first = curve.first()?;
    if amps < first.0 * (1.0 - 1e-9) {
        return None;
    }
    let above = curve
        .partition_point(|p| p.0 < amps)
        .clamp(1, curve.len() - 1);
    let (low, high) = (curve[above - 1], curve[above]);
    let part = (amps / low.0).ln() / (high.0 / low.0).ln();
    Some(low.1 * (high.1 / low.1).powf(part))
}
