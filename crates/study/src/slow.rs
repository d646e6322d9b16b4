//! Wires that their fuse is too slow for: at each current from the first at which an opening is promised, followed in
//! time as they lie, until the fuse must have opened. The quick rules of sizing know only 135 % for ever and a short of
//! a few seconds; a fuse that is slow between burns a wire that stands both. What is found is sized for anew.

use crate::design::Design;
use crate::fuse;
use crate::heat::{self, Heat};
use crate::overload::Overload;
use crate::size::Verdict;
use loom::{PartId, WireId};
use physics::fuse_clock::opening_band;
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
    let most = promised * STEPS[STEPS.len() - 1];
    let around = heat.around[wire.0 as usize];
    let class = d.insulation(d.conductor(wire)).limit.si();
    if heat::alone(d, d.conductor(wire), most, around) < class - SPARE_K {
        return None;
    }
    let overload = Overload::new(d, heat, wire);
    let tries = STEPS.iter().filter_map(|step| {
        let amps = promised * step;
        let seconds = opening_band(&gates, amps / rated).1;
        let fared = overload.bear(amps, seconds);
        // Harmed early is worse than harmed late: by how many times too late the fuse is.
        let late = seconds / fared.seconds.max(1e-3);
        fared
            .harmed
            .then_some((late.max(1.0), amps, seconds, fared))
    });
    let (late, amps, seconds, fared) = tries.max_by(|a, b| a.0.total_cmp(&b.0))?;
    let hot = ThermodynamicTemperature::from_si(fared.kelvin.min(RUNAWAY_K)).show();
    Some(Slow {
        wire,
        verdict: Verdict {
            rule: "fuse",
            margin: 1.0 / late - 1.0 - 1e-6,
            says: format!(
                "its {} A fuse may let {} flow for {} s: the wire is harmed within {} s, at {hot}",
                figures(rated, 3),
                amperes(amps).show(),
                figures(seconds, 2),
                figures(fared.seconds, 2)
            ),
            source: "fuse gates; followed in time; ISO 6722 ageing tests, from memory".to_owned(),
        },
    })
}
