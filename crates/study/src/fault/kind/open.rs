//! A wire open.

use super::{Each, Kind, wire_words};
use crate::change::Change;
use crate::design::Design;
use crate::fault::Case;
use crate::lost::Lost;

pub(super) const KIND: Kind = Kind {
    id: "wire-open",
    what: "a wire broken, or off its terminal",
    source: super::INSTALLERS,
    each,
};

fn each(d: &Design) -> Each {
    let wires = d.loom.each_wire().map(|(id, w)| {
        let says = format!("{} is open", wire_words(d, id));
        Case::new(w.name.clone(), says, vec![Change::lost(Lost::Wire(id))]).of_circuits(w.circuit)
    });
    Each::of(wires.collect())
}
