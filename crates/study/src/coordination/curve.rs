//! The damage curve of a wire: at each current, how long until it passes its damage limit or its insulation's life is
//! used up, from the temperature of normal use, as it lies.

use crate::answers::Answers;
use crate::design::Design;
use crate::fault::{Warm, bears, piece};
use loom::WireId;
use physics::ageing::Bears;
use physics::warming::run::Care;
use physics::warming::{Currents, End, Run, Sample};
use std::ops::ControlFlow;

/// Currents of a curve: a finer cut moves no margin by 2 %.
const CURRENTS: usize = 24;
/// Longest time that is followed, s; a steady temperature is reckoned on from there.
const LONGEST_S: f64 = 3600.0;
/// A time that nobody asks beyond, s: a year.
const FOR_EVER_S: f64 = 3.2e7;

/// A current that stays.
struct Held(f64);

impl Currents for Held {
    fn amps(&self, _: &[f64], amps: &mut [f64]) {
        amps.fill(self.0);
    }
}

/// The curve between two currents, A; from the least that harms the wire within a year.
pub(super) fn damage(
    d: &Design,
    answers: &Answers,
    wire: WireId,
    (from, to): (f64, f64),
) -> Vec<(f64, f64)> {
    let warm = [Warm::whole(wire)];
    let (piece, kelvin) = piece(d, &answers.heat, &warm, 0);
    let bears = bears(d, wire);
    let run = Run {
        pieces: vec![piece],
        clocks: Vec::new(),
    };
    let step = |i: usize| from * (to / from).powf(i as f64 / CURRENTS as f64);
    let each = (0..=CURRENTS).map(step);
    let times = each.map(|amps| (amps, borne(&run, &kelvin, &bears, amps)));
    times.filter(|(_, t)| *t < FOR_EVER_S).collect()
}

/// How long the wire bears a current, s.
fn borne(run: &Run, kelvin: &[f64], bears: &Bears, amps: f64) -> f64 {
    let mut values = run.start(kelvin);
    let (mut life, mut last) = (0.0, None);
    let mut watch = |s: Sample| {
        let (hot, _) = run.hottest(s.values, 0);
        if let Some((seconds, before)) = last {
            life += bears.used(before, hot, s.seconds - seconds);
        }
        last = Some((s.seconds, hot));
        match life < 1.0 {
            true => ControlFlow::Continue(()),
            false => ControlFlow::Break(()),
        }
    };
    let (end, seconds) = run.go(
        &Held(amps),
        &mut values,
        (LONGEST_S, Care::default()),
        &mut watch,
    );
    match end {
        End::Over => seconds + (1.0 - life) * bears.seconds(run.hottest(&values, 0).0),
        _ => seconds,
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
