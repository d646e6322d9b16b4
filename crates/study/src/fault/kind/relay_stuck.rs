//! A relay or cut-out whose contact never closes.

use super::{Kind, contact};

pub(super) const KIND: Kind = Kind {
    id: "relay-stuck",
    what: "the contact of a relay or cut-out stuck open",
    source: super::INSTALLERS,
    each: |d| contact::held(d, false, "never closes"),
};
