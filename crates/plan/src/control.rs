//! What works a circuit: its relay and its switch, as far as the installer chose them.

use crate::Name;
use finding::{Keys, Span, Spanned};
use quantity::{ElectricCurrent, bounds};

/// Which side of a relay's coil the switch breaks.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum SwitchBreaks {
    /// The coil's supply.
    Supply,
    /// The coil's earth.
    Earth,
}

impl SwitchBreaks {
    /// Each with its word in plans.
    pub const WORDS: [(&'static str, Self); 2] = [("supply", Self::Supply), ("earth", Self::Earth)];
}

/// A relay as far as the installer chose it.
#[derive(Clone, Debug)]
pub struct RelayWish {
    /// Where.
    pub place: Name,
    /// Kind by stock name.
    pub kind: Option<Spanned<String>>,
    /// Where its coil returns, if not to the body where it stands.
    pub earth: Option<Name>,
    /// Its push-on terminals have no insulation.
    pub bare: bool,
}

/// A switch.
#[derive(Clone, Debug)]
pub struct SwitchWish {
    /// Where.
    pub place: Name,
    /// What it breaks when there is a relay.
    pub breaks: Option<Spanned<SwitchBreaks>>,
    /// Three positions: off / with this signal / on.
    pub auto: Option<Name>,
    /// Kind by stock name.
    pub kind: Option<Spanned<String>>,
    /// Its rating, if the installer has it already.
    pub rating: Option<Spanned<ElectricCurrent>>,
    /// Where it returns when it breaks the coil's earth, if not to the body where it stands.
    pub earth: Option<Name>,
    /// Its push-on terminals have no insulation.
    pub bare: bool,
    /// Where it is written.
    pub span: Span,
}

/// A switch by hand in the whole supply of a circuit, beside the one that works it: off whenever the circuit is not
/// wanted, so that nothing that welds or sticks turns it on alone.
#[derive(Clone, Debug)]
pub struct IsolatorWish {
    /// Where.
    pub place: Name,
    /// Kind by stock name.
    pub kind: Option<Spanned<String>>,
    /// Its rating, if the installer has it already.
    pub rating: Option<Spanned<ElectricCurrent>>,
    /// Where it is written.
    pub span: Span,
}

pub(crate) fn read_isolator(k: &Keys) -> Option<IsolatorWish> {
    Some(IsolatorWish {
        kind: k.text("kind"),
        rating: k.quantity("rating", &bounds::SWITCH),
        span: k.span(),
        place: k.need_text("place", "dash")?,
    })
}

pub(crate) fn read_relay(k: &Keys) -> Option<RelayWish> {
    Some(RelayWish {
        kind: k.text("kind"),
        earth: k.text("earth"),
        bare: k.flag("bare").is_some_and(|b| b.value),
        place: k.need_text("place", "inner wing")?,
    })
}

pub(crate) fn read_switch(k: &Keys) -> Option<SwitchWish> {
    Some(SwitchWish {
        breaks: k.choice("breaks", &SwitchBreaks::WORDS),
        auto: k.text("auto"),
        kind: k.text("kind"),
        rating: k.quantity("rating", &bounds::SWITCH),
        earth: k.text("earth"),
        bare: k.flag("bare").is_some_and(|b| b.value),
        place: k.need_text("place", "dash")?,
        span: k.span(),
    })
}
