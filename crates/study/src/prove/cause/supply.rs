//! The battery and what charges it.

use super::{Cause, Version};
use crate::change::Change;
use crate::design::Design;

/// Charges of a battery that is flat, 0 to 1: our own.
const FLAT: [f64; 3] = [0.5, 0.25, 0.05];

pub(super) fn all(d: &Design) -> Vec<Cause> {
    let name = &d.loom.parts[0].name;
    let flat = |charge: f64| Version {
        change: Change {
            charge: Some(charge),
            ..Change::default()
        },
        ohms: None,
    };
    let mut found = vec![
        Cause {
            versions: FLAT.map(flat).to_vec(),
            ..Cause::new(
                "battery-flat",
                name,
                format!("{name} (battery) is not charged"),
                Change::default(),
            )
        }
        .often(d, "battery flat", 1.0)
        .mended("charge it, let it rest, measure it again"),
    ];
    if d.loom.supply.alternator.is_some() {
        let change = Change {
            uncharged: true,
            ..Change::default()
        };
        let says = "the alternator does not charge".to_owned();
        found.push(
            Cause::new("not-charged", name, says, change)
                .often(d, "not charged", 1.0)
                .mended("look at its belt, its lead to the battery, its warning lamp"),
        );
    }
    found
}
