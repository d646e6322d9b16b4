//! `[[circuit]]`: loads switched together, with how they are fed, switched and earthed.

use crate::Name;
use crate::control::{IsolatorWish, RelayWish, SwitchWish, read_isolator, read_relay, read_switch};
use crate::cutout::{self, CutoutWish};
use crate::feed::{MainFuse, read_main_fuse};
use crate::load::{self, Load};
use finding::{Keys, Span, Spanned};
use quantity::{Ratio, bounds};

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
    /// Its battery protection device, between its fuse and its relay or switch.
    pub cutout: Option<CutoutWish>,
    /// A switch by hand in its whole supply.
    pub isolator: Option<IsolatorWish>,
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

/// Reads all circuits and numbers those that don't number themselves; gives also the names of those that
/// can't be read.
pub(crate) fn read_all(k: &Keys) -> (Vec<Circuit>, Vec<String>) {
    let mut unread: Vec<String> = Vec::new();
    let read: Vec<(Option<Spanned<u32>>, Circuit)> = k.tables("circuit", "circuit", |k| {
        let name = k.need_text("name", "rack lamps");
        let made = read(name.clone(), k);
        if made.is_none() {
            unread.extend(name.map(|n| n.value));
        }
        made
    });
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
    (numbered(read, taken), unread)
}

/// Gives each circuit without a number the next that is free.
fn numbered(read: Vec<(Option<Spanned<u32>>, Circuit)>, mut taken: Vec<u32>) -> Vec<Circuit> {
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

fn read(name: Option<Name>, k: &Keys) -> Option<(Option<Spanned<u32>>, Circuit)> {
    let number = k.whole("number", 1..=999);
    let loads = read_loads(k);
    let source = read_source(k);
    let fuse = read_main_fuse(k);
    let relay = k.table("relay", "relay", read_relay);
    let switch = k.table("switch", "switch", read_switch);
    let cutout = k.table("cutout", "cutout", cutout::read);
    let isolator = k.table("isolator", "isolator", read_isolator);
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
        cutout: cutout.flatten(),
        isolator: isolator.flatten(),
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

fn read_loads(k: &Keys) -> Vec<Load> {
    if !k.has("load") {
        k.error(
            "missing-key",
            k.span(),
            "this circuit has no “load”",
            "add load = [{ lamp = \"LED\", rated = \"20 W\", place = \"…\" }]",
        );
    }
    k.tables("load", "load", load::read)
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
