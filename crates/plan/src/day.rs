//! `[[day]]`: how the vehicle is used, part after part: for how long, in which supply state, with which
//! circuits on. Takes the keys of one part, gives it.

use crate::need::quantity_like;
use crate::{Name, SupplyState};
use finding::{Keys, Span, Spanned};
use quantity::{Quantity, Time, bounds, seconds};

/// The longest that a part of the day may crank the engine: starters are made for seconds, and are to
/// rest after half a minute. Common practice, no source.
const LONGEST_CRANKING_S: f64 = 60.0;

/// A part of the day.
#[derive(Clone, Debug)]
pub struct DayPart {
    /// What is done in it: "drive to the orchard"; the supply state's word when not said.
    pub what: String,
    /// How long it lasts.
    pub hours: Spanned<Time>,
    /// What the vehicle is doing.
    pub supply: SupplyState,
    /// The circuits that are on.
    pub on: Vec<Name>,
    /// Where it is written.
    pub span: Span,
}

pub(crate) fn read(k: &Keys) -> Option<DayPart> {
    if !k.has("supply") {
        k.error(
            "missing-key",
            k.span(),
            "this part of the day does not say its “supply”",
            "add supply = \"driving\" (or parked, key on, idling, cranking)",
        );
    }
    let supply = k.choice("supply", &SupplyState::WORDS).map(|s| s.value);
    let cranked = supply == Some(SupplyState::Cranking);
    let bound = if cranked {
        bounds::CRANKED
    } else {
        bounds::DAY_PART
    };
    let hours = quantity_like(k, "hours", &bound, "45 min");
    let what = k.text("what");
    let on = k.texts("on");
    if let Some(hours) = hours.filter(|h| cranked && h.value > seconds(LONGEST_CRANKING_S)) {
        k.error(
            "day",
            hours.span,
            format!(
                "the engine is cranked for {}, and an engine is cranked for seconds",
                hours.value.show()
            ),
            "write hours = \"10 s\", or supply = \"key on\" for the time before the start",
        );
    }
    let supply = supply?;
    Some(DayPart {
        what: what.map_or_else(|| supply.word().to_owned(), |w| w.value),
        hours: hours?,
        supply,
        on,
        span: k.span(),
    })
}
