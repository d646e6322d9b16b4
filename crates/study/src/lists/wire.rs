//! Wire by kind and colour, in metres.

use super::{Amount, Buy};
use crate::design::Design;
use crate::fit::Table;
use quantity::Quantity;
use std::collections::BTreeMap;

/// Metres are bought in tenths.
const STEP_M: f64 = 0.1;

/// "2.5 mm² thin-wall PVC, RD/BU".
pub(super) fn words(d: &Design, conductor: usize, colour: &str) -> String {
    format!("{}, {colour}", d.stock.conductors[conductor].id)
}

pub(super) fn rows(d: &Design, table: &Table) -> Vec<Buy> {
    let more = 1.0 + table.allowance("wire").value;
    let mut kinds: BTreeMap<(usize, String), (f64, Vec<String>)> = BTreeMap::new();
    for (id, w) in d.loom.each_wire() {
        let kind = (d.choice.wires[id.0 as usize], w.colour.to_string());
        let (metres, names) = kinds.entry(kind).or_default();
        *metres += w.cut.si();
        names.push(w.name.clone());
    }
    let row = |((conductor, colour), (metres, used_by)): ((usize, String), (f64, Vec<String>))| {
        let c = &d.stock.conductors[conductor];
        let what = words(d, conductor, &colour);
        let metres = (metres * more / STEP_M - 1e-9).ceil() * STEP_M;
        Buy {
            group: "wire",
            what,
            amount: Amount::Metres(metres),
            used_by,
            price: c.price_per_m.map(|each| each * metres),
        }
    };
    kinds.into_iter().map(row).collect()
}
