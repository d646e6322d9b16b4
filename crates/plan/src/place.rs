//! `[place]` and `[[stretch]]`: spots in the vehicle and the ways between them.

use crate::Name;
use finding::{Finding, Keys, Span, Spanned, word_of};
use quantity::{Length, Quantity, ThermodynamicTemperature, bounds};

/// What kind of spot a place is. It sets heat and wet where the place does not say.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Zone {
    /// Under the bonnet of a road vehicle.
    EngineBay,
    /// A boat's engine space, as boat rules mean it.
    EngineSpace,
    /// Where people sit.
    Cabin,
    /// Luggage or load space, closed.
    LoadSpace,
    /// Outside, above the chassis.
    Outside,
    /// Under the floor, in spray.
    Underbody,
    /// Near the exhaust or the turbocharger.
    NearExhaust,
}

impl Zone {
    /// Each zone with its word in plans.
    pub const WORDS: [(&'static str, Self); 7] = [
        ("engine bay", Self::EngineBay),
        ("engine space", Self::EngineSpace),
        ("cabin", Self::Cabin),
        ("load space", Self::LoadSpace),
        ("outside", Self::Outside),
        ("underbody", Self::Underbody),
        ("near exhaust", Self::NearExhaust),
    ];

    /// Its word.
    pub fn word(self) -> &'static str {
        word_of(&Self::WORDS, &self)
    }
}

/// A spot in the vehicle.
#[derive(Clone, Debug)]
pub struct Place {
    /// Its name.
    pub name: Name,
    /// Its zone.
    pub zone: Zone,
    /// Temperature around the wires, if the installer knows it.
    pub heat: Option<ThermodynamicTemperature>,
    /// Whether water gets there, if said.
    pub wet: Option<bool>,
    /// What is here must come out again (a dash, a panel): wires get a connector here.
    pub comes_out: bool,
    /// Where it is, as parts of the vehicle's length from the front and of its width from the left, if the plan says.
    pub at: Option<[f64; 2]>,
}

/// A panel that a stretch passes through.
#[derive(Clone, Debug)]
pub struct Panel {
    /// What the panel is: "bulkhead".
    pub name: String,
    /// Its thickness.
    pub thickness: Option<Length>,
    /// Whether the hole gets a grommet. It does unless the installer says not.
    pub grommet: bool,
    /// Where this is written.
    pub span: Span,
}

/// What a stretch's wires are sleeved in.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum SleeveWish {
    /// Split corrugated tube.
    Convolute,
    /// Expandable braid.
    Braided,
    /// Plain PVC tube.
    Pvc,
    /// Nothing: wires run open, tied together.
    Open,
}

impl SleeveWish {
    /// Each with its word in plans and in stock.
    pub const WORDS: [(&'static str, Self); 4] = [
        ("convolute", Self::Convolute),
        ("braided", Self::Braided),
        ("PVC sleeve", Self::Pvc),
        ("none", Self::Open),
    ];

    /// Its word.
    pub fn word(self) -> &'static str {
        word_of(&Self::WORDS, &self)
    }
}

/// The way between two places.
#[derive(Clone, Debug)]
pub struct Stretch {
    /// The two ends.
    pub between: [Name; 2],
    /// How long it is.
    pub length: Length,
    /// Whether that is a guess, still to be measured.
    pub guessed: bool,
    /// What it passes through.
    pub through: Option<Panel>,
    /// How it is sleeved.
    pub sleeve: SleeveWish,
    /// Whether the sleeve was chosen by the installer.
    pub sleeve_said: bool,
    /// Temperature along it, if it differs from the hotter of its ends.
    pub heat: Option<ThermodynamicTemperature>,
    /// Where it is written.
    pub span: Span,
}

pub(crate) fn read_place(name: Spanned<String>, k: &Keys) -> Option<Place> {
    if !k.has("zone") {
        k.error(
            "missing-key",
            k.span(),
            "this place does not say its “zone”",
            "add zone = \"cabin\" (or engine bay, outside, …)",
        );
    }
    let zone = k.choice("zone", &Zone::WORDS);
    let heat = k.quantity("heat", &bounds::HEAT).map(|h| h.value);
    let wet = k.flag("wet").map(|w| w.value);
    let comes_out = k.flag("comes_out").is_some_and(|c| c.value);
    let at = k.table("at", "place in the vehicle", |k| {
        let part = |key| k.need_quantity(key, &bounds::SHARE);
        let (along, across) = (part("along"), part("across"));
        Some([along?.value.si(), across?.value.si()])
    });
    if name.value.trim().is_empty() {
        k.error(
            "empty",
            name.span,
            "a place has no name",
            "name it after what a person would call the spot",
        );
    }
    Some(Place {
        name,
        // A place with a bad zone is still a place: what refers to it is not wrong.
        zone: zone.map_or(Zone::Cabin, |z| z.value),
        heat,
        wet,
        comes_out,
        at: at.flatten(),
    })
}

pub(crate) fn read_stretch(k: &Keys) -> Option<Stretch> {
    if !k.has("between") {
        k.error(
            "missing-key",
            k.span(),
            "this stretch does not say its ends",
            "add between = [\"one place\", \"another\"]",
        );
    }
    let ends = k.texts("between");
    let length = k.need_quantity("length", &bounds::STRETCH);
    let through = k.table("through", "panel", |k| Panel {
        name: k
            .need_text("panel", "bulkhead")
            .map_or_else(String::new, |t| t.value),
        thickness: k.quantity("thickness", &bounds::PANEL).map(|t| t.value),
        grommet: k.flag("grommet").is_none_or(|g| g.value),
        span: k.span(),
    });
    let sleeve = k.choice("sleeve", &SleeveWish::WORDS);
    let heat = k.quantity("heat", &bounds::HEAT).map(|h| h.value);
    let guessed = k.flag("guessed").is_some_and(|g| g.value);
    let Ok([a, b]) = <[Name; 2]>::try_from(ends) else {
        if k.has("between") {
            let span = k.span_of("between").unwrap_or(k.span());
            k.report(Finding::error(
                "two-ends",
                span,
                "a stretch has two ends",
                "write between = [\"one place\", \"another\"]",
            ));
        }
        return None;
    };
    Some(Stretch {
        between: [a, b],
        length: length?.value,
        guessed,
        through,
        sleeve: sleeve.map_or(SleeveWish::Convolute, |s| s.value),
        sleeve_said: sleeve.is_some(),
        heat,
        span: k.span(),
    })
}
