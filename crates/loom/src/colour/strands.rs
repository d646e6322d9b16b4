//! Strands: wires that are one conductor with one purpose, through splices and plugs, and which of them meet.

use crate::{Loom, PartKind, Role, WireId};
use petgraph::unionfind::UnionFind;
use std::collections::{BTreeMap, BTreeSet};

/// One conductor with one purpose.
pub(super) struct Strand {
    /// What its wires are for.
    pub role: Role,
    /// The conductor.
    pub conductor: usize,
    /// Its wires, in the loom's order.
    pub wires: Vec<WireId>,
    /// The conductor is a source's or a fuse's own: as live as they are, whatever switches stand.
    pub fed: bool,
    /// The conductor comes to an earth point or the battery's negative with nothing between.
    pub earthed: bool,
    /// The strands of other conductors that it meets, each with how much that counts: once for every bundle they share,
    /// and [`AT_PLUG`] for every connector.
    pub meets: Vec<(usize, usize)>,
}

impl Strand {
    /// It is an earth, and like all earths.
    pub fn earths(&self) -> bool {
        match self.role {
            Role::Earth | Role::Return => true,
            Role::CoilEarth => self.earthed,
            _ => false,
        }
    }
}

/// At a connector a wrong way is taken more easily than in a bundle: it counts more than all bundles.
const AT_PLUG: usize = 1000;

/// The strands of a loom, in the order of their first wires.
pub(super) fn all(loom: &Loom) -> Vec<Strand> {
    let mut one = UnionFind::<usize>::new(loom.pins.len());
    for w in &loom.wires {
        one.union(w.from.0 as usize, w.to.0 as usize);
    }
    for m in &loom.mates {
        one.union(m.live.0 as usize, m.far.0 as usize);
    }
    let conductor = |w: WireId| one.find(loom.wire(w).from.0 as usize);
    let [fed, earthed] = ends(loom, &one);
    let mut strands: Vec<Strand> = Vec::new();
    let mut of = vec![0; loom.wires.len()];
    for (id, w) in loom.each_wire() {
        let its = conductor(id);
        let found = strands
            .iter()
            .position(|s| (s.conductor, s.role) == (its, w.role));
        let at = found.unwrap_or_else(|| {
            strands.push(Strand {
                role: w.role,
                conductor: its,
                wires: Vec::new(),
                fed: fed.contains(&its),
                earthed: earthed.contains(&its),
                meets: Vec::new(),
            });
            strands.len() - 1
        });
        strands[at].wires.push(id);
        of[id.0 as usize] = at;
    }
    let mut met: BTreeMap<[usize; 2], usize> = BTreeMap::new();
    let bundles = loom.stretches.len();
    for (i, here) in meetings(loom).enumerate() {
        let weight = if i < bundles { 1 } else { AT_PLUG };
        let here: BTreeSet<usize> = here.iter().map(|w| of[w.0 as usize]).collect();
        let here: Vec<usize> = here.into_iter().collect();
        for (i, a) in here.iter().enumerate() {
            for b in &here[i + 1..] {
                if strands[*a].conductor != strands[*b].conductor {
                    *met.entry([*a, *b]).or_insert(0) += weight;
                }
            }
        }
    }
    for ([a, b], weight) in met {
        strands[a].meets.push((b, weight));
        strands[b].meets.push((a, weight));
    }
    strands
}

/// Conductors with a pin of a source or a fuse's far side, and conductors with a pin of an earth.
fn ends(loom: &Loom, one: &UnionFind<usize>) -> [BTreeSet<usize>; 2] {
    let mut found = [BTreeSet::new(), BTreeSet::new()];
    for part in &loom.parts {
        let (which, pins) = match &part.kind {
            PartKind::Battery { .. } => {
                found[1].insert(one.find(part.pins[1].0 as usize));
                (0, &part.pins[..1])
            }
            PartKind::Feed(_) | PartKind::Box(_) => (0, &part.pins[..]),
            PartKind::Fuse(_) => (0, &part.pins[1..]),
            PartKind::Earth(_) => (1, &part.pins[..]),
            _ => continue,
        };
        found[which].extend(pins.iter().map(|pin| one.find(pin.0 as usize)));
    }
    found
}

/// The wires that lie together: those of each bundle, then those of each connector.
pub(super) fn meetings(loom: &Loom) -> impl Iterator<Item = Vec<WireId>> + '_ {
    let bundles = loom.stretches.iter().map(|s| s.wires.clone());
    let plugs = loom.parts.iter();
    let plugs = plugs.filter(|p| matches!(p.kind, PartKind::Connector { .. }));
    let at_plugs = plugs.map(|part| {
        let ends = loom.each_wire();
        let here = ends.filter(|(_, w)| part.pins.contains(&w.from) || part.pins.contains(&w.to));
        here.map(|(id, _)| id).collect()
    });
    bundles.chain(at_plugs)
}
