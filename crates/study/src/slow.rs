//! Wires that their fuse is too slow for: at each current from the first at which an opening is promised, followed in
//! time as they lie, until the fuse must have opened. The quick rules of sizing know only 135 % for ever and a short of
//! a few seconds; a fuse that is slow between burns a wire that stands both. What is found is sized for anew.

use crate::design::Design;
use crate::fault::{clock, guard};
use crate::heat::{self, Heat};
use crate::overload::Overload;
use crate::size::Verdict;
use loom::{PartId, PartKind, WireId};
use physics::fuse_clock::opening_band;
use physics::warming::Clock;
use physics::wire_heat::RUNAWAY_K;
use quantity::{Quantity, ThermodynamicTemperature, amperes, figures};
use rayon::prelude::*;

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

/// Every such wire, behind a fuse of the loom or one of the vehicle's own.
pub(crate) fn find(d: &Design, heat: &Heat) -> Vec<Slow> {
    let wires: Vec<WireId> = d
        .loom
        .each_wire()
        .filter(|(_, w)| !w.bounded)
        .map(|(id, _)| id)
        .collect();
    let found = wires.into_par_iter();
    found.filter_map(|wire| again(d, heat, wire)).collect()
}

/// One wire, with what is chosen for it now.
pub(crate) fn again(d: &Design, heat: &Heat, wire: WireId) -> Option<Slow> {
    let fuse = guard(d, wire).filter(|fuse| is_said(d, *fuse))?;
    slow(d, heat, wire, &clock(d, fuse)?)
}

/// Whether anybody knows its rating: what the plan does not say of the vehicle's fuses sizes nothing, and is told.
fn is_said(d: &Design, fuse: PartId) -> bool {
    match &d.loom.part(fuse).kind {
        PartKind::Signal(s) => s.fused.is_some(),
        PartKind::Feed(f) => f.fused.is_some(),
        _ => true,
    }
}

fn slow(d: &Design, heat: &Heat, wire: WireId, fuse: &Clock) -> Option<Slow> {
    let rated = fuse.slow_amps;
    let first = fuse.gates.iter().find(|g| g.max_s.is_some())?;
    let promised = first.multiple * rated;
    let most = promised * STEPS[STEPS.len() - 1];
    let around = heat.around[wire.0 as usize];
    let class = d.insulation(d.conductor(wire)).limit.si();
    if heat::alone(d, d.conductor(wire), most, around) < class - SPARE_K {
        return None;
    }
    let overload = Overload::new(d, heat, wire);
    let told = |margin: f64, says: String| Slow {
        wire,
        verdict: Verdict {
            rule: "fuse",
            margin,
            says: format!("its {} A fuse {says}", figures(rated, 3)),
            source: "fuse gates; followed in time; ISO 6722 ageing tests, from memory".to_owned(),
        },
    };
    let mut worst: Option<(f64, Slow)> = None;
    for step in STEPS {
        let amps = promised * step;
        let seconds = opening_band(&fuse.gates, amps / rated).1;
        let let_flow = format!(
            "may let {} flow for {} s",
            amperes(amps).show(),
            figures(seconds, 2)
        );
        let fared = match overload.bear(amps, seconds) {
            Ok(fared) => fared,
            // Unknown is no better than harmed.
            Err(why) => return Some(told(-1.0, format!("{let_flow}: not followed, {why}"))),
        };
        // Harmed early is worse than harmed late: by how many times too late the fuse is.
        let late = (seconds / fared.seconds.max(1e-3)).max(1.0);
        if fared.harmed && worst.as_ref().is_none_or(|w| late > w.0) {
            let hot = ThermodynamicTemperature::from_si(fared.kelvin.min(RUNAWAY_K)).show();
            let within = figures(fared.seconds, 2);
            let says = format!("{let_flow}: the wire is harmed within {within} s, at {hot}");
            worst = Some((late, told(1.0 / late - 1.0 - 1e-6, says)));
        }
    }
    worst.map(|w| w.1)
}
