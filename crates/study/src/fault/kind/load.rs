//! A load shorted inside.

use super::{Each, Kind, fuse_of_load, touch_range};
use crate::change::Change;
use crate::design::Design;
use crate::fault::Case;
use loom::PartKind;

pub(super) const KIND: Kind = Kind {
    id: "load-shorted",
    what: "a load shorted inside",
    source: "what installers count on going wrong, and 0 to 50 mΩ left of it, as of a touch: common practice, no document claimed",
    each,
};

fn each(d: &Design) -> Each {
    let loads = d
        .loom
        .each_part()
        .filter(|(_, p)| matches!(p.kind, PartKind::Load(_)));
    let cases = loads.map(|(id, p)| {
        let changes = touch_range(d).map(|ohms| Change {
            shorted: Some((id, ohms)),
            ..Change::default()
        });
        let says = format!("{} ({}) is shorted inside", p.name, p.label);
        Case::new(p.name.clone(), says, changes.to_vec())
            .of_circuits(p.circuit)
            .guarded(fuse_of_load(d, id))
    });
    Each::of(cases.collect())
}
