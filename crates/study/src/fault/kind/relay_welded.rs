//! A relay or cut-out whose contact has welded.

use super::{Kind, contact};

pub(super) const KIND: Kind = Kind {
    id: "relay-welded",
    what: "the contact of a relay or cut-out welded",
    source: super::INSTALLERS,
    each: |d| contact::held(d, true, "has welded"),
};
