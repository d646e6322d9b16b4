//! Wires that their fuse is too slow for: at each current from the first at which an opening is promised, followed in
//! time as they lie, until the fuse must have opened. The quick rules of sizing know only 135 % for ever and a short of
//! a few seconds; a fuse that is slow between burns a wire that stands both. What is found is sized for anew.

use crate::design::Design;
use crate::fault::{Warm, bears, piece};
use crate::fuse;
use crate::heat::{self, Heat};
use crate::size::Verdict;
use loom::{PartId, WireId};
use physics::ageing::Bears;
use physics::fuse_clock::opening_band;
use physics::warming::run::Care;
use physics::warming::{Currents, End, Run, Sample};
use physics::wire_heat::RUNAWAY_K;
use quantity::{Quantity, ThermodynamicTemperature, amperes, figures};
use rayon::prelude::*;
use std::ops::ControlFlow;

/// Currents that are tried, over the first one at which an opening is promised; the last is nearly four times the
/// rating, where every class is as quick as the law of short circuits asks. Twice as many find no wire more in the
/// examples.
const STEPS: [f64; 7] = [1.001, 1.12, 1.25, 1.4, 1.6, 2.0, 2.8];
/// A wire that, alone, comes to rest this far below its class temperature at the largest of them needs no closer look, K.
const SPARE_K: f64 = 20.0;

/// A wire that its fuse is too slow for.
#[derive(Clone, Debug)]
pub(crate) struct Slow {
    pub wire: WireId,
    /// In words and figures; its margin is below nothing.
    pub verdict: Verdict,
}

/// A current that stays.
struct Held(f64);

impl Currents for Held {
    fn amps(&self, _: &[f64], amps: &mut [f64]) {
        amps.fill(self.0);
    }
}

/// Every such wire.
pub(crate) fn find(d: &Design, heat: &Heat) -> Vec<Slow> {
    let wires: Vec<(WireId, PartId)> = d
        .loom
        .each_wire()
        .filter(|(_, w)| !w.bounded)
        .filter_map(|(id, w)| Some((id, w.fuse?)))
        .collect();
    let found = wires.into_par_iter();
    found
        .filter_map(|(wire, fuse)| slow(d, heat, wire, fuse))
        .collect()
}

/// One wire, with what is chosen for it now.
pub(crate) fn again(d: &Design, heat: &Heat, wire: WireId) -> Option<Slow> {
    slow(d, heat, wire, d.loom.wire(wire).fuse?)
}

fn slow(d: &Design, heat: &Heat, wire: WireId, part: PartId) -> Option<Slow> {
    let (kind, rating) = d.fuse(part)?;
    let (gates, rated) = (fuse::gates(kind), rating.amps.si());
    let promised = kind.least_promised()? * rated;
    let bears = bears(d, wire);
    let most = promised * STEPS[STEPS.len() - 1];
    let around = heat.around[wire.0 as usize];
    if heat::alone(d, d.conductor(wire), most, around) < bears.class_k() - SPARE_K {
        return None;
    }
    let (piece, kelvin) = piece(d, heat, &[Warm::whole(wire)], 0);
    let run = Run {
        pieces: vec![piece],
        clocks: Vec::new(),
    };
    let tries = STEPS.iter().filter_map(|step| {
        let amps = promised * step;
        let seconds = opening_band(&gates, amps / rated).1;
        let reached = reaches(&run, &kelvin, &bears, (amps, seconds));
        (reached.life >= 1.0).then_some((amps, seconds, reached))
    });
    let (amps, seconds, reached) = tries.max_by(|a, b| a.2.life.total_cmp(&b.2.life))?;
    let hot = ThermodynamicTemperature::from_si(reached.kelvin.min(RUNAWAY_K)).show();
    Some(Slow {
        wire,
        verdict: Verdict {
            rule: "fuse",
            margin: 1.0 / reached.life.min(1e6) - 1.0 - 1e-6,
            says: format!(
                "its {} A fuse may let {} flow for {} s: the wire is harmed within {} s, at {hot}",
                figures(rated, 3),
                amperes(amps).show(),
                figures(seconds, 2),
                figures(reached.seconds, 2)
            ),
            source: "fuse gates; followed in time; ISO 6722 ageing tests, from memory".to_owned(),
        },
    })
}

/// What came of an overload by the time that the fuse opens.
struct Reached {
    /// Part of the insulation's life that it took; one or more where it is harmed.
    life: f64,
    kelvin: f64,
    /// Until it was harmed, s.
    seconds: f64,
}

fn reaches(run: &Run, kelvin: &[f64], bears: &Bears, (amps, seconds): (f64, f64)) -> Reached {
    let mut values = run.start(kelvin);
    let (mut life, mut last) = (0.0, None);
    let mut watch = |s: Sample| {
        let (hot, _) = run.hottest(s.values, 0);
        if let Some((from, before)) = last {
            life += bears.used(before, hot, s.seconds - from);
        }
        last = Some((s.seconds, hot));
        match life < 1.0 {
            true => ControlFlow::Continue(()),
            false => ControlFlow::Break(()),
        }
    };
    let (end, until) = run.go(
        &Held(amps),
        &mut values,
        (seconds, Care::default()),
        &mut watch,
    );
    let damaged = matches!(end, End::Damaged(..));
    Reached {
        life: if damaged {
            f64::max(life, seconds / until.max(1e-3))
        } else {
            life
        },
        kelvin: run.hottest(&values, 0).0,
        seconds: until,
    }
}
