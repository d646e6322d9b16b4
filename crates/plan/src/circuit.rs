//! `[[circuit]]`: loads switched together, with how they are fed, switched and earthed.

use crate::Name;
use crate::feed::{MainFuse, read_main_fuse};
use crate::load::{self, Load};
use finding::{Keys, Span, Spanned};
use quantity::{ElectricCurrent, Ratio, bounds};

/// What a circuit is fed from.
#[derive(Clone, Debug)]
pub enum Source {
    /// A way of a box: the one named, or the next free.
    Box {
        /// The box.
        name: Name,
        /// The way.
        way: Option<Spanned<u32>>,
    },
    /// A feed of its own, with its fuse at the feed.
    Feed {
        /// The feed.
        name: Name,
    },
}

/// A fuse as far as the installer chose it.
pub type FuseWish = MainFuse;

/// Live without a switch.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Live {
    /// Always.
    Always,
    /// With the ignition.
    Ignition,
}

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

/// A circuit.
#[derive(Clone, Debug)]
pub struct Circuit {
    /// Its name.
    pub name: Name,
    /// Its number: the stem of the names of its parts and wires.
    pub number: u32,
    /// Its loads.
    pub loads: Vec<Load>,
    /// What it is fed from.
    pub source: Source,
    /// Its fuse.
    pub fuse: FuseWish,
    /// Its relay.
    pub relay: Option<RelayWish>,
    /// Its switch.
    pub switch: Option<SwitchWish>,
    /// Live without a switch.
    pub live: Option<Spanned<Live>>,
    /// Only with these signals.
    pub only: Vec<Name>,
    /// Not with these signals.
    pub unless: Vec<Name>,
    /// Turned on by this signal, without a switch.
    pub trigger: Option<Name>,
    /// The feed that the relay's coil is supplied from.
    pub control: Option<Name>,
    /// Where its loads return: an earth, a place, or "battery".
    pub earth: Name,
    /// Allowed drop.
    pub drop: Option<Spanned<Ratio>>,
    /// Where it is written.
    pub span: Span,
}

/// Reads all circuits and numbers those that don't number themselves.
pub(crate) fn read_all(k: &Keys) -> Vec<Circuit> {
    let read: Vec<(Option<Spanned<u32>>, Circuit)> = k.tables("circuit", "circuit", read);
    let mut taken: Vec<u32> = Vec::new();
    for (number, _) in &read {
        let Some(n) = number else { continue };
        if taken.contains(&n.value) {
            k.error(
                "number-taken",
                n.span,
                format!("number {} belongs to another circuit", n.value),
                "give each circuit its own number",
            );
        }
        taken.push(n.value);
    }
    let mut next = 1;
    read.into_iter()
        .map(|(number, mut circuit)| {
            circuit.number = number.map_or_else(
                || {
                    while taken.contains(&next) {
                        next += 1;
                    }
                    taken.push(next);
                    next
                },
                |n| n.value,
            );
            circuit
        })
        .collect()
}

fn read(k: &Keys) -> Option<(Option<Spanned<u32>>, Circuit)> {
    let name = k.need_text("name", "rack lamps");
    let number = k.whole("number", 1..=999);
    if !k.has("load") {
        k.error(
            "missing-key",
            k.span(),
            "this circuit has no “load”",
            "add load = [{ lamp = \"LED\", rated = \"20 W\", place = \"…\" }]",
        );
    }
    let loads = k.tables("load", "load", load::read);
    let source = read_source(k);
    let fuse = read_main_fuse(k);
    let relay = k.table("relay", "relay", |k| {
        Some(RelayWish {
            kind: k.text("kind"),
            earth: k.text("earth"),
            bare: k.flag("bare").is_some_and(|b| b.value),
            place: k.need_text("place", "inner wing")?,
        })
    });
    let switch = k.table("switch", "switch", read_switch);
    let live = k.choice(
        "live",
        &[("always", Live::Always), ("ignition", Live::Ignition)],
    );
    let only = k.texts("only");
    let unless = k.texts("unless");
    let trigger = k.text("trigger");
    let control = k.text("control");
    let earth = k.need_text("earth", "inner wing");
    let drop = k.quantity("drop", &bounds::DROP);
    let circuit = Circuit {
        name: name?,
        number: 0,
        loads,
        source: source?,
        fuse,
        relay: relay.flatten(),
        switch: switch.flatten(),
        live,
        only,
        unless,
        trigger,
        control,
        earth: earth?,
        drop,
        span: k.span(),
    };
    Some((number, circuit))
}

fn read_source(k: &Keys) -> Option<Source> {
    let from_box = k.text("box");
    let from_feed = k.text("feed");
    let way = k.whole("way", 1..=60);
    match (from_box, from_feed) {
        (Some(name), None) => Some(Source::Box { name, way }),
        (None, Some(name)) => {
            if let Some(way) = way {
                k.error(
                    "way-without-box",
                    way.span,
                    "a way belongs to a box, and this circuit names none",
                    "write box = \"…\", or leave way out",
                );
            }
            Some(Source::Feed { name })
        }
        (Some(_), Some(feed)) => {
            k.error(
                "two-sources",
                feed.span,
                "this circuit is fed from a box and from a feed",
                "keep one of box and feed",
            );
            None
        }
        (None, None) => {
            if !k.has("box") && !k.has("feed") {
                k.error(
                    "missing-key",
                    k.span(),
                    "this circuit does not say what feeds it",
                    "add box = \"auxiliary box\" or feed = \"battery\"",
                );
            }
            None
        }
    }
}

fn read_switch(k: &Keys) -> Option<SwitchWish> {
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
