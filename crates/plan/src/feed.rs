//! `[[feed]]`, `[[box]]`, `[[earth]]`: where power comes from, where it is shared out, where it
//! returns.

use crate::Name;
use finding::{Keys, Span, Spanned};
use quantity::{ElectricCurrent, ElectricalResistance, Length, bounds};

/// The kinds of feed.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum FeedKind {
    /// The battery's own post.
    BatteryPost,
    /// A stud that the vehicle already has, live from the battery.
    PowerStud,
    /// A spare way of the vehicle's own fuse box.
    SpareWay,
    /// Live with the ignition (terminal 15).
    IgnitionTap,
}

impl FeedKind {
    /// Each kind with its word in plans.
    pub const WORDS: [(&'static str, Self); 4] = [
        ("battery post", Self::BatteryPost),
        ("power stud", Self::PowerStud),
        ("spare way", Self::SpareWay),
        ("ignition tap", Self::IgnitionTap),
    ];
}

/// Where power is taken.
#[derive(Clone, Debug)]
pub struct Feed {
    /// Its name.
    pub name: Name,
    /// Its kind.
    pub kind: FeedKind,
    /// Where it is.
    pub place: Name,
    /// The fuse that the vehicle already has before it.
    pub fused: Option<Spanned<ElectricCurrent>>,
    /// What may be taken from it at most.
    pub gives: Option<ElectricCurrent>,
    /// Resistance from the battery to it, if known.
    pub resistance: Option<ElectricalResistance>,
    /// Whether its live metal is covered.
    pub cover: bool,
    /// Where it is written.
    pub span: Span,
}

pub(crate) fn read_feed(k: &Keys) -> Option<Feed> {
    let name = k.need_text("name", "aux stud");
    if !k.has("kind") {
        k.error(
            "missing-key",
            k.span(),
            "this feed does not say its “kind”",
            "add kind = \"power stud\" (or battery post, spare way, ignition tap)",
        );
    }
    let kind = k.choice("kind", &FeedKind::WORDS);
    let place = k.need_text("place", "inner wing");
    Some(Feed {
        fused: k.quantity("fused", &bounds::FUSE),
        gives: k.quantity("gives", &bounds::GIVES).map(|g| g.value),
        resistance: k
            .quantity("resistance", &bounds::FEED_RESISTANCE)
            .map(|r| r.value),
        cover: k.flag("cover").is_none_or(|c| c.value),
        name: name?,
        kind: kind?.value,
        place: place?,
        span: k.span(),
    })
}

/// The fuse at the source of a feeder, as far as the installer chose it.
#[derive(Clone, Debug, Default)]
pub struct MainFuse {
    /// False when the installer says that there is none.
    pub fitted: bool,
    /// Rating, if chosen.
    pub rating: Option<Spanned<ElectricCurrent>>,
    /// Kind by stock name, if chosen.
    pub kind: Option<Spanned<String>>,
    /// Along the wire from the source.
    pub within: Option<Length>,
    /// Whether the wire before it is sheathed or enclosed all the way.
    pub sheathed: bool,
    /// Where it is written.
    pub span: Option<Span>,
}

/// A box of fuses, fed by one feeder.
#[derive(Clone, Debug)]
pub struct FuseBox {
    /// Its name.
    pub name: Name,
    /// Where it is.
    pub place: Name,
    /// How many ways.
    pub ways: u32,
    /// Fuse kind of its ways, by stock name.
    pub kind: Option<Spanned<String>>,
    /// The feed that its feeder comes from.
    pub feed: Name,
    /// The fuse at the feeder's source.
    pub fuse: MainFuse,
    /// What each spare way is to be able to carry later.
    pub spare: Option<ElectricCurrent>,
    /// Whether its live metal is covered.
    pub cover: bool,
    /// Where it is written.
    pub span: Span,
}

/// Reads `fuse = false`, `fuse = "60 A"` or `fuse = { rating, kind, within, sheathed }`.
pub(crate) fn read_main_fuse(k: &Keys) -> MainFuse {
    let mut fuse = MainFuse {
        fitted: true,
        span: k.span_of("fuse"),
        ..MainFuse::default()
    };
    if k.is_flag("fuse") {
        fuse.fitted = k.flag("fuse").is_some_and(|f| f.value);
    } else if k.is_table("fuse") {
        k.table("fuse", "fuse", |k| {
            fuse.rating = k.quantity("rating", &bounds::FUSE);
            fuse.kind = k.text("kind");
            fuse.within = k
                .quantity("within", &bounds::FUSE_DISTANCE)
                .map(|w| w.value);
            fuse.sheathed = k.flag("sheathed").is_some_and(|s| s.value);
        });
    } else {
        fuse.rating = k.quantity("fuse", &bounds::FUSE);
    }
    fuse
}

pub(crate) fn read_box(k: &Keys) -> Option<FuseBox> {
    let name = k.need_text("name", "auxiliary box");
    let place = k.need_text("place", "inner wing");
    if !k.has("ways") {
        k.error(
            "missing-key",
            k.span(),
            "this box does not say how many “ways” it has",
            "add ways = 6",
        );
    }
    let ways = k.whole("ways", 1..=60);
    let kind = k.text("kind");
    let feed = k.need_text("feed", "battery");
    let fuse = read_main_fuse(k);
    let spare = k.quantity("spare", &bounds::SPARE).map(|s| s.value);
    let cover = k.flag("cover").is_none_or(|c| c.value);
    Some(FuseBox {
        name: name?,
        place: place?,
        // Without a number it is still a box: what refers to it is not wrong.
        ways: ways.map_or(60, |w| w.value),
        kind,
        feed: feed?,
        fuse,
        spare,
        cover,
        span: k.span(),
    })
}

/// What an earth point is fixed to.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Surface {
    /// Cleaned to bright metal.
    Bare,
    /// Paint left on.
    Painted,
    /// A hinged panel: door, bonnet, tailgate.
    Hinged,
}

impl Surface {
    /// Each surface with its word in plans.
    pub const WORDS: [(&'static str, Self); 3] = [
        ("bare metal", Self::Bare),
        ("painted", Self::Painted),
        ("hinged panel", Self::Hinged),
    ];
}

/// How current gets from an earth point back to the battery.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum EarthReturn {
    /// Through the body.
    Body,
    /// By a wire back to the battery's negative post.
    Battery,
}

impl EarthReturn {
    /// Each with its word in plans.
    pub const WORDS: [(&'static str, Self); 2] = [("body", Self::Body), ("battery", Self::Battery)];
}

/// An earth point.
#[derive(Clone, Debug)]
pub struct Earth {
    /// Its name.
    pub name: Name,
    /// Where it is.
    pub place: Name,
    /// How current returns from it.
    pub to: EarthReturn,
    /// What it is fixed to.
    pub surface: Spanned<Surface>,
}

pub(crate) fn read_earth(k: &Keys) -> Option<Earth> {
    let name = k.need_text("name", "wing earth");
    let place = k.need_text("place", "inner wing");
    let to = k
        .choice("to", &EarthReturn::WORDS)
        .map_or(EarthReturn::Body, |t| t.value);
    let surface = k.choice("surface", &Surface::WORDS);
    Some(Earth {
        name: name?,
        place: place?,
        to,
        surface: surface.unwrap_or(Spanned::new(Surface::Bare, k.span())),
    })
}
