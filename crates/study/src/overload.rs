//! One wire with a current that stays, as it lies and as warm as in normal use: how it fares, until it is harmed or a time
//! is over.

use crate::design::Design;
use crate::fault::{Warm, bears, piece};
use crate::heat::Heat;
use loom::WireId;
use physics::ageing::Bears;
use physics::warming::run::Care;
use physics::warming::{Currents, End, Run, Sample};
use std::ops::ControlFlow;

/// A wire ready to be overloaded.
pub(crate) struct Overload {
    run: Run,
    /// Where it begins, K.
    kelvin: Vec<f64>,
    /// What its insulation bears.
    pub bears: Bears,
}

/// How it fared.
pub(crate) struct Fared {
    /// Whether it was harmed: past its damage limit, or its insulation's life used up.
    pub harmed: bool,
    /// Until then, or until the time was over, s.
    pub seconds: f64,
    /// Part of its insulation's life that was used.
    pub life: f64,
    /// The hottest at the end, K.
    pub kelvin: f64,
}

/// A current that stays.
struct Held(f64);

impl Currents for Held {
    fn amps(&self, _: &[f64], amps: &mut [f64]) {
        amps.fill(self.0);
    }
}

impl Overload {
    pub(crate) fn new(d: &Design, heat: &Heat, wire: WireId) -> Self {
        let (piece, kelvin) = piece(d, heat, &[Warm::whole(wire)], 0);
        Self {
            run: Run {
                pieces: vec![piece],
                clocks: Vec::new(),
            },
            kelvin,
            bears: bears(d, wire),
        }
    }

    /// How it fares with `amps` for at most `seconds`.
    pub(crate) fn bear(&self, amps: f64, seconds: f64) -> Fared {
        let mut values = self.run.start(&self.kelvin);
        let (mut life, mut last) = (0.0, None);
        let mut watch = |s: Sample| {
            let (hot, _) = self.run.hottest(s.values, 0);
            if let Some((from, before)) = last {
                life += self.bears.used(before, hot, s.seconds - from);
            }
            last = Some((s.seconds, hot));
            match life < 1.0 {
                true => ControlFlow::Continue(()),
                false => ControlFlow::Break(()),
            }
        };
        let asked = (seconds, Care::default());
        let (end, until) = self.run.go(&Held(amps), &mut values, asked, &mut watch);
        Fared {
            harmed: life >= 1.0 || matches!(end, End::Damaged(..)),
            seconds: until,
            life,
            kelvin: self.run.hottest(&values, 0).0,
        }
    }
}
