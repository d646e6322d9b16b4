//! A connector unplugged.

use super::{Each, Kind};
use crate::change::Change;
use crate::design::Design;
use crate::fault::Case;
use crate::lost::Lost;
use loom::PartKind;

pub(super) const KIND: Kind = Kind {
    id: "connector-off",
    what: "a connector unplugged",
    source: "our own: it is where looms come apart",
    each,
};

fn each(d: &Design) -> Each {
    let plugs = d.loom.each_part().filter_map(|(id, p)| {
        let plug = matches!(p.kind, PartKind::Connector { .. });
        let says = format!("connector {} ({}) is unplugged", p.name, p.label);
        plug.then(|| {
            let change = vec![Change::lost(Lost::Connector(id))];
            Case::new(p.name.clone(), says, change).of_circuits(p.circuit)
        })
    });
    Each::of(plugs.collect())
}
