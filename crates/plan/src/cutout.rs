//! `cutout = { … }` of a circuit: a battery protection device, which cuts the circuit out before the
//! battery is too low to start the engine. Takes its keys, gives what the installer wants of it.

use crate::Name;
use crate::need::quantity_like;
use finding::{Keys, Span, Spanned};
use quantity::{ElectricCurrent, ElectricPotential, Quantity, bounds};

/// A battery protection device as far as the installer chose it. It stands between the circuit's fuse
/// and its relay or switch.
#[derive(Clone, Debug)]
pub struct CutoutWish {
    /// Where.
    pub place: Name,
    /// It cuts the circuit out when its own input falls below this.
    pub opens: Spanned<ElectricPotential>,
    /// It lets the circuit in again above this.
    pub closes: Spanned<ElectricPotential>,
    /// The most it carries.
    pub rating: Option<Spanned<ElectricCurrent>>,
    /// What it draws itself.
    pub draws: Option<ElectricCurrent>,
    /// Where its own thin earth wire goes, if not to the body where it stands.
    pub earth: Option<Name>,
    /// Where it is written.
    pub span: Span,
}

pub(crate) fn read(k: &Keys) -> Option<CutoutWish> {
    let place = k.need_text("place", "dash");
    let opens = quantity_like(k, "opens", &bounds::VOLTAGE, "11.5 V");
    let closes = quantity_like(k, "closes", &bounds::VOLTAGE, "12.5 V");
    let rating = k.quantity("rating", &bounds::CUTOUT);
    let draws = k.quantity("draws", &bounds::CUTOUT_DRAW).map(|d| d.value);
    let earth = k.text("earth");
    if let (Some(opens), Some(closes)) = (opens, closes)
        && closes.value <= opens.value
    {
        k.error(
            "cutout",
            closes.span,
            format!(
                "this cutout opens below {} and closes above {}: it would chatter",
                opens.value.show(),
                closes.value.show()
            ),
            "take closes above opens, about 1 V apart, like opens = \"11.5 V\", closes = \"12.5 V\"",
        );
    }
    Some(CutoutWish {
        place: place?,
        opens: opens?,
        closes: closes?,
        rating,
        draws,
        earth,
        span: k.span(),
    })
}
