//! `[wire."W1.2"]`: what the installer sets for a single wire instead of what would be chosen.

use crate::Name;
use finding::{Keys, Spanned};
use quantity::{Length, Misread, WireSize, bounds};

/// Overrides of one wire. The name is the loom's; `loom` reports one that no wire bears.
#[derive(Clone, Debug)]
pub struct WireWish {
    /// The wire's name.
    pub name: Name,
    /// Size.
    pub size: Option<Spanned<WireSize>>,
    /// Base colour, and stripe if any, as IEC 60757 codes.
    pub colour: Option<Spanned<(String, Option<String>)>>,
    /// Insulation by stock name.
    pub insulation: Option<Spanned<String>>,
    /// Places to pass, in order.
    pub route: Vec<Name>,
    /// Cut length.
    pub length: Option<Spanned<Length>>,
    /// Whether it lies in a sleeve of its own all the way, also within a bundle.
    pub sheathed: bool,
}

/// The two-letter colours of IEC 60757 (read; reference/workmanship/colour_codes_iec60757).
pub(crate) const COLOURS: [&str; 14] = [
    "BK", "BN", "RD", "OG", "YE", "GN", "BU", "VT", "GY", "WH", "PK", "GD", "TQ", "SR",
];

fn colour(text: &str) -> Result<(String, Option<String>), Misread> {
    let mut parts = text.split(['/', '-', '+']).map(|p| p.trim().to_uppercase());
    let base = parts.next().unwrap_or_default();
    let stripe = parts.next();
    let known = |c: &String| COLOURS.contains(&c.as_str());
    if known(&base) && stripe.as_ref().is_none_or(known) && parts.next().is_none() {
        return Ok((base, stripe));
    }
    Err(Misread {
        what: format!("“{text}” is no wire colour"),
        mend: format!(
            "write base and stripe by IEC 60757, like \"RD\" or \"RD/WH\": {}",
            COLOURS.join(" ")
        ),
    })
}

pub(crate) fn read(name: Spanned<String>, k: &Keys) -> Option<WireWish> {
    Some(WireWish {
        name,
        size: k.parsed("size", WireSize::read),
        colour: k.parsed("colour", colour),
        insulation: k.text("insulation"),
        route: k.texts("route"),
        length: k.quantity("length", &bounds::WIRE_LENGTH),
        sheathed: k.flag("sheathed").is_some_and(|s| s.value),
    })
}
