//! `[job]`: what the work is called, which rules bind, and the habits that hold unless a circuit says otherwise.

use finding::{Keys, Spanned, word_of};
use quantity::{
    Length, Quantity, Ratio, TemperatureInterval, WireSize, bounds, millimetres, percent,
};

/// The table of allowed currents that binds beside computed heat.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Rules {
    /// US boat law, table 5: also the default for road vehicles, which have no single legal table.
    Cfr183,
    /// The same currents with bundling factors at any voltage, as boat practice has it.
    BoatPractice,
    /// Free-air currents derived from the NEC.
    NecFreeAir,
    /// ISO 10133, from memory.
    Iso10133,
    /// Computed heat only.
    HeatOnly,
}

impl Rules {
    /// Each rule set with the name by which plans and stock tables call it.
    pub const WORDS: [(&'static str, Self); 5] = [
        ("33 CFR 183.425", Self::Cfr183),
        ("boat practice", Self::BoatPractice),
        ("NEC free air", Self::NecFreeAir),
        ("ISO 10133", Self::Iso10133),
        ("heat only", Self::HeatOnly),
    ];

    /// The name of its table.
    pub fn name(self) -> &'static str {
        word_of(&Self::WORDS, &self)
    }
}

/// The family that wires are bought in.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum WireFamily {
    /// ISO 6722 / ISO 19642 metric cable.
    Metric,
    /// SAE J1128 cable, smaller than the same AWG.
    Sae,
    /// Boat cable of full AWG area.
    Boat,
}

impl WireFamily {
    /// Each family with its word in plans.
    pub const WORDS: [(&'static str, Self); 3] = [
        ("metric", Self::Metric),
        ("SAE", Self::Sae),
        ("AWG boat", Self::Boat),
    ];
}

/// What sizing seeks the least of.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Aim {
    /// Money.
    #[default]
    Cost,
    /// Mass.
    Mass,
    /// Kinds of wire to buy.
    Kinds,
}

impl Aim {
    /// Each aim with its words in plans.
    pub const WORDS: [(&'static str, Self); 3] = [
        ("least cost", Self::Cost),
        ("least mass", Self::Mass),
        ("fewest kinds", Self::Kinds),
    ];

    /// Its words in plans and reports.
    pub fn words(self) -> &'static str {
        word_of(&Self::WORDS, &self)
    }
}

/// By which habit wires get their colours.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Colours {
    /// Road vehicles: DIN 72551-7.
    #[default]
    Road,
    /// Boats.
    Boat,
    /// Red, black, and a colour for each circuit.
    Plain,
}

impl Colours {
    /// Each habit with its word in plans.
    pub const WORDS: [(&'static str, Self); 3] = [
        ("road", Self::Road),
        ("boat", Self::Boat),
        ("plain", Self::Plain),
    ];

    /// Its word in plans and tables.
    pub fn word(self) -> &'static str {
        word_of(&Self::WORDS, &self)
    }
}

/// The vehicle's shape, seen from above.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Outline {
    /// Seats and a boot.
    Car,
    /// A closed load space behind the seats.
    Van,
    /// An open tray behind the seats.
    PickUp,
    /// A cab before a bed.
    Lorry,
    /// Drawn by another.
    Trailer,
    /// A hull.
    Boat,
}

impl Outline {
    /// Each shape with its word in plans.
    pub const WORDS: [(&'static str, Self); 6] = [
        ("car", Self::Car),
        ("van", Self::Van),
        ("pick-up", Self::PickUp),
        ("lorry", Self::Lorry),
        ("trailer", Self::Trailer),
        ("boat", Self::Boat),
    ];

    /// Its word.
    pub fn word(self) -> &'static str {
        word_of(&Self::WORDS, &self)
    }
}

/// `[job]`.
#[derive(Clone, Debug)]
pub struct Job {
    /// What the work is called.
    pub title: String,
    /// The vehicle, in the owner's words.
    pub vehicle: String,
    /// Whom the drawing belongs to.
    pub owner: Option<String>,
    /// The binding table.
    pub rules: Rules,
    /// What sizing seeks the least of.
    pub aim: Aim,
    /// The wire family.
    pub family: WireFamily,
    /// Insulation by stock name, where not set for a single wire.
    pub insulation: Option<Spanned<String>>,
    /// Insulation wall by stock word.
    pub wall: Option<Spanned<String>>,
    /// The sizes to choose from; empty for the usual series of the family.
    pub sizes: Vec<Spanned<WireSize>>,
    /// Allowed drop where a circuit does not say.
    pub drop: Ratio,
    /// Whether `drop` was written or is the common figure.
    pub drop_assumed: bool,
    /// Kept below the insulation's class temperature.
    pub margin: TemperatureInterval,
    /// Whether `margin` was written or assumed.
    pub margin_assumed: bool,
    /// Added at each end of each wire.
    pub ends: Length,
    /// Whether `ends` was written or assumed.
    pub ends_assumed: bool,
    /// Added at each end that water could run into, if the plan says.
    pub drip_loop: Option<Length>,
    /// Added at a switch in the cabin, so that its panel can be drawn forward, if the plan says.
    pub spare: Option<Length>,
    /// By which habit wires get their colours.
    pub colours: Colours,
    /// Whether `colours` was written or assumed.
    pub colours_assumed: bool,
    /// The vehicle's shape, if the plan says.
    pub outline: Option<Outline>,
}

impl Job {
    /// Whether whichever insulation is best is to be taken for all wires.
    pub fn any_insulation(&self) -> bool {
        self.insulation.as_ref().is_some_and(|i| i.value == ANY)
    }
}

/// What a plan writes for an insulation that is to be found.
const ANY: &str = "any";

/// 3 %: common practice for accessory circuits (reference/conductors/27).
fn usual_drop() -> Ratio {
    percent(3.0)
}

/// 10 K below the class temperature: our own margin, no source; heat models err by about as much in current.
fn usual_margin() -> TemperatureInterval {
    TemperatureInterval::from_si(10.0)
}

/// 100 mm at each end to strip, crimp and turn, and to crimp twice anew (AC 43.13-1B 11-118 wants slack for two); the
/// figure is common practice, no source.
fn usual_ends() -> Length {
    millimetres(100.0)
}

pub(crate) fn read(k: &Keys) -> Job {
    let title = k
        .need_text("title", "rack lamps")
        .map_or_else(String::new, |t| t.value);
    let drop = k.quantity("drop", &bounds::DROP);
    let margin = k.quantity("margin", &bounds::MARGIN);
    let ends = k.quantity("ends", &bounds::END);
    let colours = k.choice("colours", &Colours::WORDS);
    Job {
        title,
        vehicle: k.text("vehicle").map_or_else(String::new, |t| t.value),
        owner: k.text("owner").map(|t| t.value),
        rules: k
            .choice("rules", &Rules::WORDS)
            .map_or(Rules::Cfr183, |r| r.value),
        family: k
            .choice("wire", &WireFamily::WORDS)
            .map_or(WireFamily::Metric, |f| f.value),
        aim: k.choice("aim", &Aim::WORDS).map_or(Aim::Cost, |a| a.value),
        insulation: k.text("insulation"),
        wall: k.text("wall"),
        sizes: sizes(k),
        drop: drop.map_or_else(usual_drop, |d| d.value),
        drop_assumed: drop.is_none(),
        margin: margin.map_or_else(usual_margin, |m| m.value),
        margin_assumed: margin.is_none(),
        ends: ends.map_or_else(usual_ends, |e| e.value),
        ends_assumed: ends.is_none(),
        drip_loop: k.quantity("drip_loop", &bounds::END).map(|l| l.value),
        spare: k.quantity("spare", &bounds::END).map(|l| l.value),
        colours: colours.map_or(Colours::Road, |c| c.value),
        colours_assumed: colours.is_none(),
        outline: k.choice("outline", &Outline::WORDS).map(|o| o.value),
    }
}

fn sizes(k: &Keys) -> Vec<Spanned<WireSize>> {
    let read = |t: Spanned<String>| match WireSize::read(&t.value) {
        Ok(size) => Some(Spanned::new(size, t.span)),
        Err(e) => {
            k.error("bad-value", t.span, format!("sizes: {}", e.what), e.mend);
            None
        }
    };
    k.texts("sizes").into_iter().filter_map(read).collect()
}
