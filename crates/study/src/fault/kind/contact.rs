//! What faults of a contact share: it stands, whatever its coil gets.

use super::Each;
use crate::change::Change;
use crate::design::Design;
use crate::fault::Case;
use loom::PartKind;

/// Every relay and cut-out with its contact standing so; `word` says it.
pub(super) fn held(d: &Design, closed: bool, word: &str) -> Each {
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
