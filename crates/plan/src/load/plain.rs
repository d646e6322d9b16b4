//! `heater = …`, `electronics = …`, `socket = …`: kinds that say nothing more than their own word.

use super::LoadKind;
use finding::Keys;

pub(super) fn read_heater(k: &Keys) -> Option<(LoadKind, String)> {
    k.text("heater").map(|t| (LoadKind::Heater, t.value))
}

pub(super) fn read_electronics(k: &Keys) -> Option<(LoadKind, String)> {
    k.text("electronics")
        .map(|t| (LoadKind::Electronics, t.value))
}

pub(super) fn read_socket(k: &Keys) -> Option<(LoadKind, String)> {
    k.text("socket")
        .map(|t| (LoadKind::Socket, format!("{} socket", t.value)))
}
