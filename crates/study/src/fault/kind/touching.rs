//! Two wires of one sleeve that touch, halfway along. What matters of a wire is its circuit, what it is for and
//! the fuse before it: of pairs that are alike in these the thinnest is tried.

use super::{Each, Kind, guard, touch_range};
use crate::change::{Change, Spot, Touching};
use crate::design::Design;
use crate::fault::Case;
use loom::{PartId, Role, WireId};
use quantity::Quantity;
use std::collections::{BTreeMap, BTreeSet};

pub(super) const KIND: Kind = Kind {
    id: "wire-to-wire",
    what: "two wires of one sleeve touching",
    source: "what installers count on going wrong: common practice; contact 0 to 50 mΩ: common practice, no document claimed",
    each,
};

/// What of a wire matters to who touches it.
type Sort = (Option<usize>, Role, Option<PartId>);

fn each(d: &Design) -> Each {
    let sort = |w: WireId| -> Sort {
        let w = d.loom.wire(w);
        (w.circuit, w.role, w.fuse)
    };
    let area = |w: WireId| d.conductor(w).area.si();
    let mut met: BTreeSet<(WireId, WireId)> = BTreeSet::new();
    let mut thinnest: BTreeMap<(Sort, Sort), (f64, (WireId, WireId))> = BTreeMap::new();
    for stretch in &d.loom.stretches {
        for (i, a) in stretch.wires.iter().enumerate() {
            for b in &stretch.wires[i + 1..] {
                let pair = (*a.min(b), *a.max(b));
                // Two sleeves to chafe through are two things gone wrong.
                let apart = |w: WireId| d.loom.wire(w).set.sheathed;
                if apart(pair.0) || apart(pair.1) || joined(d, pair) || !met.insert(pair) {
                    continue;
                }
                let (s, t) = (sort(pair.0), sort(pair.1));
                let key = (s.min(t), s.max(t));
                let size = area(pair.0) + area(pair.1);
                let kept = thinnest.entry(key).or_insert((size, pair));
                if size < kept.0 {
                    *kept = (size, pair);
                }
            }
        }
    }
    let alike = met.len() - thinnest.len();
    let cases = thinnest.values().map(|(_, pair)| case(d, *pair)).collect();
    Each { cases, alike }
}

/// Whether both ends of two wires are the same pins.
fn joined(d: &Design, (a, b): (WireId, WireId)) -> bool {
    let ends = |w: WireId| {
        let w = d.loom.wire(w);
        [w.from, w.to]
    };
    let (a, b) = (ends(a), ends(b));
    a.iter().all(|pin| b.contains(pin))
}

fn case(d: &Design, (a, b): (WireId, WireId)) -> Case {
    let (x, y) = (d.loom.wire(a), d.loom.wire(b));
    let changes = touch_range(d).map(|ohms| Change {
        touch: Some(Touching {
            a: Spot::Middle(a),
            b: Some(Spot::Middle(b)),
            ohms,
        }),
        ..Change::default()
    });
    let says = format!("{} and {} touch in their sleeve", x.name, y.name);
    Case::new(format!("{} + {}", x.name, y.name), says, changes.to_vec())
        .named([x.name.clone(), y.name.clone()])
        .of_circuits(x.circuit.into_iter().chain(y.circuit))
        .guarded([a, b].into_iter().filter_map(|w| guard(d, w)))
}
