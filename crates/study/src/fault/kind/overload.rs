//! A load that draws more than it should: a motor that stalls, a winding with shorted turns, a larger lamp than was
//! reckoned with. It may draw anything: what is tried is what its fuse lets through longest, at each gate of the band
//! that promises an opening. A dead short is another fault.

use super::{Each, Kind, fuse_before};
use crate::change::Change;
use crate::design::Design;
use crate::fault::Case;
use loom::PartKind;
use quantity::Quantity;

pub(super) const KIND: Kind = Kind {
    id: "load-overloads",
    what: "a load that draws as much as its fuse lets through longest",
    source: "fuse and wire coordination: the slow edge must lie below the wire's damage curve at every current",
    each,
};

/// How far above the gate.
const ABOVE: f64 = 1.03;

fn each(d: &Design) -> Each {
    let mut cases = Vec::new();
    for (id, p) in d.loom.each_part() {
        if !matches!(p.kind, PartKind::Load(_)) {
            continue;
        }
        let Some((fuse, (kind, rating))) = fuse_before(d, id).and_then(|f| Some((f, d.fuse(f)?)))
        else {
            continue;
        };
        let promised = kind.gates.iter().filter(|g| g.max_s.is_some());
        let changes = promised.map(|g| Change {
            // A little above, so that the gate's promise holds where the load gets less than its rated voltage.
            draws: Some((id, rating.amps.si() * g.multiple * ABOVE)),
            ..Change::default()
        });
        let says = format!("{} ({}) draws more than it should", p.name, p.label);
        let case = Case::new(p.name.clone(), says, changes.collect());
        let case = Case { slow: true, ..case };
        cases.push(case.of_circuits(p.circuit).guarded([fuse]));
    }
    Each::of(cases)
}
