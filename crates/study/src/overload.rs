//! One wire with a current that stays, as it lies and as warm as in normal use: how it fares, until it is harmed or a time
//! is over.

use crate::change::Change;
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
        let warm = [Warm::whole(wire)];
        let (piece, kelvin) = piece(d, heat, (&warm, 0), &Change::default());
        Self {
            run: Run {
                pieces: vec![piece],
                clocks: Vec::new(),
            },
            kelvin,
            bears: bears(d, wire),
        }
    }

    /// How it fares with `amps` for at most `seconds`; or why nobody knows.
    pub(crate) fn bear(&self, amps: f64, seconds: f64) -> Result<Fared, String> {
        let mut values = self.run.start(&self.kelvin);
        let (mut life, mut last) = (0.0, None);
        let mut watch = |s: Sample| {
            let hot = self.run.hottest(s.values, 0);
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
        if let End::Lost(why) = end {
            return Err(why);
        }
        Ok(Fared {
            harmed: life >= 1.0 || matches!(end, End::Damaged(..)),
            seconds: until,
            life,
            kelvin: self.run.hottest(&values, 0),
        })
    }
}
