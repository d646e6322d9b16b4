//! An earth point off the body.

use super::{Each, Kind};
use crate::change::Change;
use crate::design::Design;
use crate::fault::Case;
use crate::lost::Lost;
use loom::PartKind;

pub(super) const KIND: Kind = Kind {
    id: "earth-lost",
    what: "an earth point off the body",
    source: super::INSTALLERS,
    each,
};

fn each(d: &Design) -> Each {
    let earths = d.loom.each_part().filter_map(|(id, p)| {
        let body = matches!(&p.kind, PartKind::Earth(e) if e.to == plan::EarthReturn::Body);
        let says = format!("earth {} ({}) is off the body", p.name, p.label);
        body.then(|| Case::new(p.name.clone(), says, vec![Change::lost(Lost::Earth(id))]))
    });
    Each::of(earths.collect())
}
