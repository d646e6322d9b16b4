//! `motor = "pump"`: near-constant torque once it runs, several times that to start. The word is
//! the installer's own.

use super::LoadKind;
use finding::Keys;

pub(super) fn read(k: &Keys) -> Option<(LoadKind, String)> {
    k.text("motor").map(|t| (LoadKind::Motor, t.value))
}
