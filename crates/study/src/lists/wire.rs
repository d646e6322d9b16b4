//! Wire by kind and colour, in metres.

use super::{Amount, Buy};
use crate::design::Design;
use crate::fit::Table;
use loom::WireId;
use quantity::Quantity;
use std::collections::BTreeMap;

/// Metres are bought in tenths.
const STEP_M: f64 = 0.1;

/// "2.5 mm² thin-wall PVC, RD/BU".
pub(super) fn words(d: &Design, conductor: usize, colour: &str) -> String {
    format!("{}, {colour}", d.stock.conductors[conductor].id)
}

/// The wires of each kind (index into stock) and colour.
pub(super) fn kinds(d: &Design) -> BTreeMap<(usize, String), Vec<WireId>> {
    let mut kinds: BTreeMap<(usize, String), Vec<WireId>> = BTreeMap::new();
    for (id, w) in d.loom.each_wire() {
        let kind = (d.choice.wires[id.0 as usize], w.colour.to_string());
        kinds.entry(kind).or_default().push(id);
    }
    kinds
}

pub(super) fn rows(d: &Design, table: &Table) -> Vec<Buy> {
    let more = 1.0 + table.allowance("wire").value;
    let row = |((conductor, colour), wires): ((usize, String), Vec<WireId>)| {
        let c = &d.stock.conductors[conductor];
        let each = wires.iter().map(|w| d.loom.wire(*w));
        let metres: f64 = each.clone().map(|w| w.cut.si()).sum();
        let used_by = each.map(|w| w.name.clone()).collect();
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
    kinds(d).into_iter().map(row).collect()
}
