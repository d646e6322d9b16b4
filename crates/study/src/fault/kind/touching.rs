//! Two wires of one sleeve that touch, halfway along. What matters of a wire is the piece of metal that it is part of,
//! whatever is switched: of pairs that join the same two pieces, the thinnest is tried and the one that is furthest from its
//! sources.

use super::{Each, Kind, guard, touch_range, wire_words};
use crate::change::{Change, Spot, Touching};
use crate::design::Design;
use crate::fault::Case;
use loom::{Loom, WireId};
use petgraph::unionfind::UnionFind;
use quantity::Quantity;
use std::collections::{BTreeMap, BTreeSet};

pub(super) const KIND: Kind = Kind {
    id: "wire-to-wire",
    what: "two wires of one sleeve touching",
    source: "what installers count on going wrong, and a contact of 0 to 50 mΩ: common practice, no document claimed",
    each,
};

type Pair = (WireId, WireId);

/// Of pairs that are alike, those that are tried: the thinnest with its area and its way's resistance, and the furthest.
struct Alike {
    thinnest: (f64, f64, Pair),
    furthest: (f64, Pair),
}

/// A way that resists no more than so many times as much is no further. Our own, no source; the resistance of a touch alone
/// is tried over a wider range.
const FURTHER: f64 = 1.25;

impl Alike {
    fn tried(&self) -> impl Iterator<Item = Pair> {
        let (_, ohms, thinnest) = self.thinnest;
        let (most, furthest) = self.furthest;
        [thinnest]
            .into_iter()
            .chain((most > FURTHER * ohms).then_some(furthest))
    }
}

fn each(d: &Design) -> Each {
    let metal = metal(d.loom);
    let far: Vec<f64> = d.loom.each_wire().map(|(id, _)| ohms_to(d, id)).collect();
    let mut met: BTreeSet<Pair> = BTreeSet::new();
    let mut kept: BTreeMap<(usize, usize), Alike> = BTreeMap::new();
    for pair in d.loom.stretches.iter().flat_map(|s| pairs(&s.wires)) {
        // Two sleeves to chafe through are two things gone wrong.
        let apart = |w: WireId| d.loom.wire(w).set.sheathed;
        if apart(pair.0) || apart(pair.1) || joined(d, pair) || !met.insert(pair) {
            continue;
        }
        let of = |w: WireId| metal[w.0 as usize];
        let (a, b) = (of(pair.0), of(pair.1));
        let area = |w: WireId| d.conductor(w).area.si();
        let size = area(pair.0) + area(pair.1);
        let ohms = far[pair.0.0 as usize] + far[pair.1.0 as usize];
        let alike = kept.entry((a.min(b), a.max(b))).or_insert(Alike {
            thinnest: (size, ohms, pair),
            furthest: (ohms, pair),
        });
        if size < alike.thinnest.0 {
            alike.thinnest = (size, ohms, pair);
        }
        if ohms > alike.furthest.0 {
            alike.furthest = (ohms, pair);
        }
    }
    let tried: BTreeSet<Pair> = kept.values().flat_map(Alike::tried).collect();
    Each {
        alike: met.len() - tried.len(),
        cases: tried.into_iter().map(|pair| case(d, pair)).collect(),
    }
}

/// Every two of a stretch's wires.
fn pairs(wires: &[WireId]) -> impl Iterator<Item = Pair> {
    let each = wires.iter().enumerate();
    each.flat_map(|(i, a)| wires[i + 1..].iter().map(|b| (*a.min(b), *a.max(b))))
}

/// By wire: the piece of metal that it is part of. Wires and plugs join; switches, contacts, fuses and loads part.
fn metal(loom: &Loom) -> Vec<usize> {
    let mut groups = UnionFind::new(loom.pins.len());
    for w in &loom.wires {
        groups.union(w.from.0 as usize, w.to.0 as usize);
    }
    for m in &loom.mates {
        groups.union(m.live.0 as usize, m.far.0 as usize);
    }
    let of = |w: &loom::Wire| groups.find(w.from.0 as usize);
    loom.wires.iter().map(of).collect()
}

/// Copper from the source to a wire's far end, Ω at 20 °C.
fn ohms_to(d: &Design, wire: WireId) -> f64 {
    let mut ohms = 0.0;
    let mut pin = Some(d.loom.wire(wire).to);
    // A step a pin at most: sources stand nowhere behind themselves.
    for _ in 0..=d.loom.pins.len() {
        let Some(to) = pin else { break };
        let before = d.loom.before(to);
        let wired = d.loom.each_wire();
        let way = wired.filter(|(_, w)| w.to == to && Some(w.from) == before);
        ohms += way
            .map(|(id, w)| d.conductor(id).ohm_per_m_20 * w.cut.si())
            .next()
            .unwrap_or(0.0);
        pin = before;
    }
    ohms
}

/// Whether both ends of two wires are the same pins.
fn joined(d: &Design, (a, b): Pair) -> bool {
    let ends = |w: WireId| {
        let w = d.loom.wire(w);
        [w.from, w.to]
    };
    let (a, b) = (ends(a), ends(b));
    a.iter().all(|pin| b.contains(pin))
}

fn case(d: &Design, (a, b): Pair) -> Case {
    let (x, y) = (d.loom.wire(a), d.loom.wire(b));
    let changes = touch_range(d).map(|ohms| Change {
        touch: Some(Touching {
            a: Spot::Middle(a),
            b: Some(Spot::Middle(b)),
            ohms,
        }),
        ..Change::default()
    });
    let (one, other) = (wire_words(d, a), wire_words(d, b));
    let says = format!("{one} and {other} touch in their sleeve");
    Case::new(format!("{} + {}", x.name, y.name), says, changes.to_vec())
        .named([x.name.clone(), y.name.clone()])
        .of_circuits(x.circuit.into_iter().chain(y.circuit))
        .guarded([a, b].into_iter().filter_map(|w| guard(d, w)))
}
