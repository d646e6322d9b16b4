//! The loom as trees of places: from the end of its longest way outwards, the longest branch going straight on. Where
//! stretches close a ring, one of them ends at a place that is drawn a second time.

use loom::{Loom, PlaceId, StretchId};
use quantity::Quantity;
use std::collections::{BTreeMap, BTreeSet};

/// A place in a tree.
#[derive(Clone, Debug)]
pub(super) struct Node {
    pub place: PlaceId,
    /// It stands elsewhere already: a ring is closed here.
    pub again: bool,
    /// The stretches that lead on, the longest way first.
    pub onwards: Vec<(StretchId, Node)>,
}

impl Node {
    /// The longest way from here, m.
    pub fn reach(&self, loom: &Loom) -> f64 {
        let each = self.onwards.iter();
        let each = each.map(|(s, node)| loom.stretch(*s).length.si() + node.reach(loom));
        each.fold(0.0, f64::max)
    }
}

type Beside = BTreeMap<PlaceId, Vec<(StretchId, PlaceId)>>;

/// Every tree: one where the loom hangs together. Places at which wires end and that no stretch reaches stand alone.
pub(super) fn trees(loom: &Loom) -> Vec<Node> {
    let mut beside: Beside = BTreeMap::new();
    let stretches = loom.stretches.iter().enumerate();
    for (i, s) in stretches.filter(|(_, s)| !s.wires.is_empty()) {
        let id = StretchId(i as u32);
        let [a, b] = s.ends;
        beside.entry(a).or_default().push((id, b));
        beside.entry(b).or_default().push((id, a));
    }
    for w in &loom.wires {
        for place in &w.places {
            beside.entry(*place).or_default();
        }
    }
    let mut seen = BTreeSet::new();
    let mut found = Vec::new();
    for place in beside.keys() {
        if seen.contains(place) {
            continue;
        }
        // The end of the longest way from anywhere is an end of the longest of all.
        let root = farthest(loom, &beside, *place);
        let mut used = BTreeSet::new();
        found.push(grow(loom, &beside, root, (&mut seen, &mut used)));
    }
    found
}

/// The place whose way to this one is longest, the shortest way counted.
fn farthest(loom: &Loom, beside: &Beside, from: PlaceId) -> PlaceId {
    let mut far = BTreeMap::from([(from, 0.0_f64)]);
    let mut open = vec![from];
    while let Some(place) = open.pop() {
        for (s, next) in &beside[&place] {
            let reach = far[&place] + loom.stretch(*s).length.si();
            if far.get(next).is_none_or(|known| reach < *known) {
                far.insert(*next, reach);
                open.push(*next);
            }
        }
    }
    let longest = far
        .iter()
        .max_by(|a, b| a.1.total_cmp(b.1).then(b.0.cmp(a.0)));
    longest.map_or(from, |(place, _)| *place)
}

fn grow(
    loom: &Loom,
    beside: &Beside,
    place: PlaceId,
    (seen, used): (&mut BTreeSet<PlaceId>, &mut BTreeSet<StretchId>),
) -> Node {
    seen.insert(place);
    let mut onwards = Vec::new();
    for (s, next) in &beside[&place] {
        if !used.insert(*s) {
            continue;
        }
        let node = if seen.contains(next) {
            Node {
                place: *next,
                again: true,
                onwards: Vec::new(),
            }
        } else {
            grow(loom, beside, *next, (&mut *seen, &mut *used))
        };
        onwards.push((*s, node));
    }
    let way = |(s, node): &(StretchId, Node)| loom.stretch(*s).length.si() + node.reach(loom);
    onwards.sort_by(|a, b| way(b).total_cmp(&way(a)).then(a.0.cmp(&b.0)));
    Node {
        place,
        again: false,
        onwards,
    }
}
