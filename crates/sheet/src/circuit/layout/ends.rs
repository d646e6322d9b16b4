//! How the columns of one sheet meet. A column that can reach its other side without crossing a
//! column does so; one that can't, or whose other side is on another sheet, ends in a reference to
//! the column where it goes on.

use crate::circuit::path::{Column, Foot, Top};
use loom::PinId;
use std::collections::BTreeMap;

/// How one end of a column is drawn.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum End {
    /// By itself: at a rail, an earth, a stub.
    Plain,
    /// By a level line to the node in another column.
    Meet,
    /// By a reference; others may meet it here.
    Refer,
    /// By a reference of its own that nothing meets.
    ReferAlone,
}

/// Where a node stands: column, and place in it.
type Owner = (usize, usize);

/// Top and foot of each column.
pub(crate) fn resolve(columns: &[&Column]) -> Vec<(End, End)> {
    let mut owners: BTreeMap<PinId, Owner> = BTreeMap::new();
    for (i, column) in columns.iter().enumerate() {
        for (k, item) in column.items.iter().enumerate() {
            if let Some(pin) = item.meets_at() {
                owners.insert(pin, (i, k));
            }
        }
    }
    let mut ends = vec![(End::Plain, End::Plain); columns.len()];
    for (i, column) in columns.iter().enumerate() {
        if let Top::Branch(pin) = column.top {
            ends[i].0 = match owners.get(&pin) {
                Some(_) => End::Meet,
                None => {
                    owners.insert(pin, (i, 0));
                    End::Refer
                }
            };
        }
    }
    for (i, column) in columns.iter().enumerate() {
        if let Foot::Join(pin) = column.foot {
            ends[i].1 = match owners.get(&pin) {
                None => {
                    owners.insert(pin, (i, usize::MAX));
                    End::Refer
                }
                Some(owner) if clear(columns, &ends, &owners, (i, *owner)) => End::Meet,
                Some(_) => End::ReferAlone,
            };
        }
    }
    ends
}

/// Whether a level line from column `from` to its node crosses no column: every column between has
/// ended by then, at this node or at one above it.
fn clear(
    columns: &[&Column],
    ends: &[(End, End)],
    owners: &BTreeMap<PinId, Owner>,
    (from, owner): (usize, Owner),
) -> bool {
    owner.0 < from
        && (owner.0 + 1..from).all(|m| match columns[m].foot {
            Foot::Join(pin) if ends[m].1 == End::Meet => owners
                .get(&pin)
                .is_some_and(|o| o.0 > owner.0 || (o.0 == owner.0 && o.1 <= owner.1)),
            _ => false,
        })
}
