//! `[[signal]]`: what the vehicle can tell. Takes the keys of one signal, gives it with the supply
//! states it can be there in and the vehicle's own lamps on its wire.

use crate::{Name, SupplyState};
use finding::{Keys, Span};
use quantity::{ElectricCurrent, Power, bounds};

/// A signal that the vehicle already has: a lamp feed, reverse, cranking.
#[derive(Clone, Debug)]
pub struct Signal {
    /// Its name, by which conditions call it.
    pub name: Name,
    /// Where its wire can be reached.
    pub place: Name,
    /// What may be taken from it.
    pub gives: Option<ElectricCurrent>,
    /// The fuse that the vehicle has before it.
    pub fused: Option<ElectricCurrent>,
    /// The supply states it can be there in; empty when it may be there in any. A signal that is there
    /// only while cranking (terminal 50) is there whenever the engine is cranked.
    pub when: Vec<SupplyState>,
    /// The vehicle's own lamps on that wire: they are its way to earth when the signal is not there.
    pub lamp: Option<Power>,
    /// Where it is written.
    pub span: Span,
}

pub(crate) fn read(k: &Keys) -> Option<Signal> {
    let name = k.need_text("name", "main beam");
    let place = k.need_text("place", "dash");
    let gives = k.quantity("gives", &bounds::GIVES).map(|g| g.value);
    let fused = k.quantity("fused", &bounds::FUSE).map(|f| f.value);
    let when = k.choices("when", &SupplyState::WORDS);
    let lamp = k.quantity("lamp", &bounds::SIGNAL_LAMP).map(|l| l.value);
    Some(Signal {
        name: name?,
        place: place?,
        gives,
        fused,
        when: when.into_iter().map(|w| w.value).collect(),
        lamp,
        span: k.span(),
    })
}
