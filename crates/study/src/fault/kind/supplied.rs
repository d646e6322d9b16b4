//! What faults of the whole supply share: something else supplies in place of battery and alternator. Levels are
//! per 12 V; a 24 V vehicle has twice as much.

use super::Each;
use crate::change::{Change, Foreign};
use crate::design::Design;
use crate::fault::{Case, Supplies};

/// How many 12 V the vehicle is made of.
pub(super) fn blocks(d: &Design) -> f64 {
    d.nominal() / 12.0
}

/// Whether it is a vehicle of 24 V.
pub(super) fn is_24_v(d: &Design) -> bool {
    blocks(d) > 1.5
}

/// One that lasts as long as a row of the table says, if one does.
pub(super) fn once(
    d: &Design,
    says: String,
    (volts, lasts): (f64, Option<&str>),
    supplies: Supplies,
) -> Each {
    let mut case = case(d, says, volts, supplies);
    case.lasts = lasts.map(|name| d.limits.value(name));
    Each::of(vec![case])
}

/// A case of this voltage.
pub(super) fn case(d: &Design, says: String, volts: f64, supplies: Supplies) -> Case {
    let change = Change {
        foreign: Some(Foreign {
            volts,
            ohms: d.limits.value("foreign supply"),
        }),
        ..Change::default()
    };
    let mut case = Case::new("supply".to_owned(), says, vec![change]);
    case.names = vec![d.loom.parts[0].name.clone()];
    case.supplies = supplies;
    case
}
