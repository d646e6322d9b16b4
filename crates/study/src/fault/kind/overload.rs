//! A load that draws more than it should: a motor that stalls, a winding with shorted turns, a larger lamp than was
//! reckoned with. It may draw anything: what is tried is what its fuse lets through longest, just below the first gate that
//! promises an opening and a little above each. A dead short is another fault.

use super::{Each, Kind, fuse_of_load};
use crate::change::Change;
use crate::design::Design;
use crate::fault::Case;
use crate::fault::hot;
use crate::settle::Settled;
use loom::{PartId, PartKind};

pub(super) const KIND: Kind = Kind {
    id: "load-overloads",
    what: "a load that draws as much as its fuse lets through longest",
    source: "fuse and wire coordination: the slow edge must lie below the wire's damage curve at every current",
    each,
};

/// How far above a gate, so that its promise holds where the load gets less than its rated voltage. Our own, no source.
const ABOVE: f64 = 1.03;
/// How far below the first. Our own, no source.
const BELOW: f64 = 0.98;

fn each(d: &Design) -> Each {
    let mut cases = Vec::new();
    for (id, p) in d.loom.each_part() {
        if !matches!(p.kind, PartKind::Load(_)) {
            continue;
        }
        let Some(fuse) = fuse_of_load(d, id) else {
            continue;
        };
        let says = format!("{} ({}) draws more than it should", p.name, p.label);
        let case = Case::new(p.name.clone(), says, draws(d, id, fuse));
        let case = Case { slow: true, ..case };
        cases.push(case.of_circuits(p.circuit).guarded([fuse]));
    }
    Each::of(cases)
}

/// A load drawing until its fuse feels each of these currents.
pub(super) fn draws(d: &Design, load: PartId, fuse: PartId) -> Vec<Change> {
    let Some(clock) = hot::clock(d, fuse) else {
        return Vec::new();
    };
    let promised = clock.gates.iter().filter(|g| g.max_s.is_some());
    let multiples: Vec<f64> = promised.map(|g| g.multiple).collect();
    let first = multiples.first().map(|m| m * BELOW);
    let above = multiples.iter().map(|m| m * ABOVE);
    let each = first.into_iter().chain(above);
    each.map(|multiple| Change {
        draws: Some((load, multiple * clock.slow_amps)),
        ..Change::default()
    })
    .collect()
}

/// The same change where other loads go on behind the same fuse: they take their part of what it is to feel.
pub(in crate::fault) fn beside_others(change: Change, fuses: &[PartId], whole: &Settled) -> Change {
    let (Some((load, amps)), Some(fuse)) = (change.draws, fuses.first()) else {
        return change;
    };
    let felt = |part: PartId| whole.part_amps[part.0 as usize].abs();
    let others = (felt(*fuse) - felt(load)).max(0.0);
    Change {
        draws: Some((load, amps - others)),
        ..change
    }
}
