//! `lamp = "tungsten"` or `lamp = "LED"`: a filament whose current hardly follows the voltage and
//! whose cold start is ten times its running current, or a driver that holds its power.

use super::LoadKind;
use finding::Keys;

/// How a lamp makes light.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum LampKind {
    /// Filament, halogen included.
    Tungsten,
    /// LEDs behind a driver.
    Led,
}

impl LampKind {
    /// Each kind with its word in plans.
    pub const WORDS: [(&'static str, Self); 3] = [
        ("tungsten", Self::Tungsten),
        ("halogen", Self::Tungsten),
        ("LED", Self::Led),
    ];
}

pub(super) fn read(k: &Keys) -> Option<(LoadKind, String)> {
    let kind = k.choice("lamp", &LampKind::WORDS)?.value;
    let word = match kind {
        LampKind::Tungsten => "lamp",
        LampKind::Led => "LED lamp",
    };
    Some((LoadKind::Lamp(kind), word.to_owned()))
}
