//! A relay or cut-out whose contact has welded, or never closes.

use super::{Each, Kind};
use crate::change::Change;
use crate::design::Design;
use crate::fault::Case;
use loom::PartKind;

pub(super) const WELDED: Kind = Kind {
    id: "relay-welded",
    what: "the contact of a relay or cut-out welded",
    source: "what installers count on going wrong: common practice",
    each: |d| each(d, true),
};

pub(super) const STUCK: Kind = Kind {
    id: "relay-stuck",
    what: "the contact of a relay or cut-out stuck open",
    source: "what installers count on going wrong: common practice",
    each: |d| each(d, false),
};

fn each(d: &Design, closed: bool) -> Each {
    let word = if closed { "has welded" } else { "never closes" };
    let relays = d.loom.each_part().filter_map(|(id, p)| {
        let device = match p.kind {
            PartKind::Relay(_) => "relay",
            PartKind::Cutout(_) => "cut-out",
            _ => return None,
        };
        let change = Change {
            held: Some((id, closed)),
            ..Change::default()
        };
        let says = format!("the contact of {device} {} ({}) {word}", p.name, p.label);
        Some(Case::new(p.name.clone(), says, vec![change]).of_circuits(p.circuit))
    });
    Each::of(relays.collect())
}
