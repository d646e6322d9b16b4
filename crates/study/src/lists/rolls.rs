//! From which rolls the wires are cut: for each kind and colour the rolls that come to least wire, and of equals the fewest.

use super::wire;
use crate::cutting::{Cutting, cut};
use crate::design::Design;
use crate::fit::Table;
use loom::WireId;
use quantity::Quantity;

/// The rolls of one kind and colour of wire.
#[derive(Clone, Debug)]
pub struct Rolls {
    /// "2.5 mm² thin-wall PVC, RD/BU".
    pub what: String,
    /// Length of a roll, m.
    pub metres: f64,
    /// By roll: the wires cut from it.
    pub rolls: Vec<Vec<WireId>>,
    /// No way to cut them needs fewer rolls of this length.
    pub least: usize,
}

/// Cut lengths are whole centimetres.
const CM: f64 = 100.0;

/// For every kind and colour; and the wires that are longer than any roll.
pub(super) fn rolls(d: &Design, table: &Table) -> (Vec<Rolls>, Vec<WireId>) {
    let mut found = Vec::new();
    let mut too_long = Vec::new();
    for ((conductor, colour), wires) in wire::kinds(d) {
        let length = |w: &WireId| (d.loom.wire(*w).cut.si() * CM).ceil() as u64;
        let pieces: Vec<u64> = wires.iter().map(length).collect();
        let each = table.rolls.iter().filter_map(|metres| {
            let cutting = cut((metres * CM) as u64, 0, &pieces).ok()?;
            Some((*metres, cutting))
        });
        let bought = |(metres, cutting): &(f64, Cutting)| metres * cutting.sticks.len() as f64;
        let best = each.min_by(|a, b| {
            let by_length = bought(a).total_cmp(&bought(b));
            by_length.then(a.1.sticks.len().cmp(&b.1.sticks.len()))
        });
        match best {
            Some((metres, cutting)) => found.push(Rolls {
                what: wire::words(d, conductor, &colour),
                metres,
                least: cutting.least,
                rolls: cutting
                    .sticks
                    .iter()
                    .map(|stick| stick.iter().map(|i| wires[*i]).collect())
                    .collect(),
            }),
            None => too_long.extend(wires),
        }
    }
    (found, too_long)
}
