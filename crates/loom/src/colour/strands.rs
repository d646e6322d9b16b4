//! Strands: wires that are one conductor with one purpose, through splices and plugs, and which of them meet.

use crate::{Loom, PartKind, Role, WireId};
use petgraph::unionfind::UnionFind;
use std::collections::BTreeMap;

/// One conductor with one purpose.
pub(super) struct Strand {
    /// What its wires are for.
    pub role: Role,
    /// Its wires, in the loom's order.
    pub wires: Vec<WireId>,
    /// The strands of other conductors that it meets, each with how much that counts: once for every bundle they share,
    /// and [`AT_PLUG`] for every connector.
    pub meets: Vec<(usize, usize)>,
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
    let mut strands: Vec<(usize, Strand)> = Vec::new();
    let mut of = vec![0; loom.wires.len()];
    for (id, w) in loom.each_wire() {
        let its = conductor(id);
        let found = strands
            .iter()
            .position(|(c, s)| (*c, s.role) == (its, w.role));
        let at = found.unwrap_or_else(|| {
            strands.push((
                its,
                Strand {
                    role: w.role,
                    wires: Vec::new(),
                    meets: Vec::new(),
                },
            ));
            strands.len() - 1
        });
        strands[at].1.wires.push(id);
        of[id.0 as usize] = at;
    }
    let met = meetings(loom, &strands, &of);
    for ((a, b), weight) in met {
        strands[a].1.meets.push((b, weight));
        strands[b].1.meets.push((a, weight));
    }
    strands.into_iter().map(|(_, s)| s).collect()
}

/// Which pairs of different conductors share a bundle or a connector, and how much that counts.
fn meetings(
    loom: &Loom,
    strands: &[(usize, Strand)],
    of: &[usize],
) -> BTreeMap<(usize, usize), usize> {
    let mut met = BTreeMap::new();
    let mut together = |mut here: Vec<usize>, weight: usize| {
        here.sort_unstable();
        here.dedup();
        for (i, a) in here.iter().enumerate() {
            for b in &here[i + 1..] {
                if strands[*a].0 != strands[*b].0 {
                    *met.entry((*a, *b)).or_insert(0) += weight;
                }
            }
        }
    };
    for s in &loom.stretches {
        together(s.wires.iter().map(|w| of[w.0 as usize]).collect(), 1);
    }
    for part in &loom.parts {
        if matches!(part.kind, PartKind::Connector { .. }) {
            let ends = loom.each_wire();
            let here =
                ends.filter(|(_, w)| part.pins.contains(&w.from) || part.pins.contains(&w.to));
            together(here.map(|(id, _)| of[id.0 as usize]).collect(), AT_PLUG);
        }
    }
    met
}
