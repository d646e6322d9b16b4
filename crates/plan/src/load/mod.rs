//! Loads: what uses the current. One kind, one file; each names its key and what it knows.

mod duty;
mod lamp;
mod motor;
mod plain;

use crate::Name;
use finding::{Keys, Span, Spanned};
use quantity::{
    ElectricCurrent, ElectricPotential, Length, Misread, Power, Ratio, bounds,
    read as read_quantity,
};

pub use duty::Duty;
pub use lamp::LampKind;

/// The kinds of load.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum LoadKind {
    /// A lamp.
    Lamp(LampKind),
    /// A motor: pump, fan, compressor, winch.
    Motor,
    /// A heating element.
    Heater,
    /// Electronics: radio, fridge controller, charger.
    Electronics,
    /// A socket: whatever is plugged in, up to its rating.
    Socket,
}

/// A rating as written on the thing.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Rated {
    /// In watts.
    Power(Power),
    /// In amperes.
    Current(ElectricCurrent),
}

impl Rated {
    /// Reads "55 W" or "8 A".
    pub fn read(text: &str) -> Result<Self, Misread> {
        match read_quantity::<ElectricCurrent>(text) {
            Ok(a) => bounds::LOAD_CURRENT.check(a).map(Self::Current),
            Err(_) => match read_quantity::<Power>(text) {
                Ok(p) => bounds::LOAD_POWER.check(p).map(Self::Power),
                Err(e) => Err(Misread {
                    what: e.what,
                    mend: "write what is printed on it: \"55 W\" or \"8 A\"".into(),
                }),
            },
        }
    }
}

/// One kind of load at one place; `count` of them.
#[derive(Clone, Debug)]
pub struct Load {
    /// Its kind.
    pub kind: LoadKind,
    /// What it is, in a word: "pump", "tungsten".
    pub word: String,
    /// The installer's own name for it.
    pub name: Option<Name>,
    /// Rating of one.
    pub rated: Rated,
    /// The voltage at which the rating holds, if printed.
    pub at: Option<ElectricPotential>,
    /// Starting current of one, if known.
    pub start: Option<ElectricCurrent>,
    /// Least voltage it works at.
    pub lowest: Option<ElectricPotential>,
    /// Most voltage it bears.
    pub highest: Option<ElectricPotential>,
    /// The letter of its supply-voltage class (ISO 16750-2), if it carries one.
    pub class: Option<Spanned<String>>,
    /// How many.
    pub count: u32,
    /// Where.
    pub place: Name,
    /// Length of its own lead from the loom.
    pub tail: Option<Length>,
    /// Whether it must unplug.
    pub unplug: bool,
    /// Allowed drop for it alone.
    pub drop: Option<Spanned<Ratio>>,
    /// Its own earth, if not the circuit's.
    pub earth: Option<Name>,
    /// On without being asked, it does harm: a winch, a pump.
    pub hazard: bool,
    /// How it is on, if it switches itself.
    pub duty: Option<Duty>,
    /// Where it is written.
    pub span: Span,
}

/// The key that names the kind, and how its word is read.
type KindReader = (&'static str, fn(&Keys) -> Option<(LoadKind, String)>);

const KINDS: [KindReader; 5] = [
    ("lamp", lamp::read),
    ("motor", motor::read),
    ("heater", plain::read_heater),
    ("electronics", plain::read_electronics),
    ("socket", plain::read_socket),
];

/// What the load is: exactly one key of [`KINDS`].
/// The keys of which a load has one.
pub(crate) fn kind_keys() -> impl Iterator<Item = &'static str> {
    KINDS.iter().map(|(key, _)| *key)
}

fn read_kind(k: &Keys) -> Option<(LoadKind, String)> {
    let written: Vec<_> = KINDS.iter().filter(|(key, _)| k.has(key)).collect();
    match written.as_slice() {
        [(_, reader)] => reader(k),
        [] => {
            k.error(
                "missing-key",
                k.span(),
                "this load does not say what it is",
                "add lamp = \"LED\" (or \"tungsten\"), motor = \"pump\", heater = \"seat\", electronics = \"radio\" or socket = \"lighter\"",
            );
            None
        }
        [.., (key, _)] => {
            let span = k.span_of(key).unwrap_or(k.span());
            k.error(
                "two-kinds",
                span,
                "this load is two things at once",
                "write each load as its own { … }",
            );
            None
        }
    }
}

pub(crate) fn read(k: &Keys) -> Option<Load> {
    let kind = read_kind(k);
    if !k.has("rated") {
        k.error(
            "missing-key",
            k.span(),
            "this load does not say what it is “rated”",
            "add rated = \"55 W\" or rated = \"8 A\"",
        );
    }
    let rated = k.parsed("rated", Rated::read);
    let place = k.need_text("place", "rack");
    let load = Load {
        word: kind.as_ref().map_or_else(String::new, |(_, w)| w.clone()),
        kind: kind.map_or(LoadKind::Socket, |(kind, _)| kind),
        name: k.text("name"),
        rated: rated.map_or(Rated::Current(quantity::amperes(1.0)), |r| r.value),
        at: k.quantity("at", &bounds::VOLTAGE).map(|v| v.value),
        start: k.quantity("start", &bounds::START_CURRENT).map(|s| s.value),
        lowest: k.quantity("lowest", &bounds::VOLTAGE).map(|v| v.value),
        highest: k.quantity("highest", &bounds::VOLTAGE).map(|v| v.value),
        class: k.text("class"),
        count: k.whole("count", 1..=40).map_or(1, |c| c.value),
        tail: k.quantity("tail", &bounds::TAIL).map(|t| t.value),
        unplug: k.flag("unplug").is_some_and(|u| u.value),
        drop: k.quantity("drop", &bounds::DROP),
        earth: k.text("earth"),
        hazard: k.flag("hazard").is_some_and(|h| h.value),
        duty: k.table("duty", "duty", duty::read).flatten(),
        place: place?,
        span: k.span(),
    };
    if let (Some(low), Some(high)) = (load.lowest, load.highest)
        && low >= high
    {
        k.error(
            "limits",
            k.span(),
            "its lowest voltage is not below its highest",
            "swap or mend lowest and highest",
        );
    }
    Some(load)
}
