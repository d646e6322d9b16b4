//! `plan`: what the installer wants. Takes the text of one TOML file, gives a [`Plan`] with spans
//! and *all* its errors; edits that text with comments and order kept.
//!
//! Absent from this room: electricity, stock, any wire that the installer did not name. A plan
//! says what is wanted; parts and wires follow from it in `loom`.

pub mod ask;
mod circuit;
mod control;
mod cutout;
mod day;
mod edit;
mod feed;
pub mod form;
mod job;
mod load;
mod names;
mod need;
mod place;
mod rules;
mod signal;
mod supply;
mod supply_state;
mod wire;
mod written;

pub use circuit::{Circuit, FuseWish, Live, Source};
pub use control::{IsolatorWish, RelayWish, SwitchBreaks, SwitchWish};
pub use cutout::CutoutWish;
pub use day::DayPart;
pub use edit::{EditError, Editor, entry};
pub use feed::{Earth, EarthReturn, Feed, FeedKind, FuseBox, MainFuse, Surface};
pub use job::{Aim, Colours, Job, Outline, Rules, WireFamily};
pub use load::{Duty, LampKind, Load, LoadKind, Rated};
pub use place::{Panel, Place, SleeveWish, Stretch, Zone};
pub use signal::Signal;
pub use supply::{Alternator, Battery, Chemistry, Supply, SystemVoltage, VehicleDraw};
pub use supply_state::SupplyState;
pub use wire::WireWish;
pub use written::{Entry, Node, Written};

use finding::{Finding, Keys, Spanned, read_toml};

/// A name as written, with its place: a place, a feed, a box, an earth, a signal.
pub type Name = Spanned<String>;

/// Everything the installer wants.
#[derive(Clone, Debug)]
pub struct Plan {
    /// Title, vehicle, rule set and habits.
    pub job: Job,
    /// Battery, alternator, the vehicle's own draw.
    pub supply: Supply,
    /// Spots in the vehicle.
    pub places: Vec<Place>,
    /// Ways between them.
    pub stretches: Vec<Stretch>,
    /// Where power may be taken, besides the battery itself.
    pub feeds: Vec<Feed>,
    /// Fuse boxes.
    pub boxes: Vec<FuseBox>,
    /// Earth points that say more than their place.
    pub earths: Vec<Earth>,
    /// Signals that the vehicle already has.
    pub signals: Vec<Signal>,
    /// What is to be added.
    pub circuits: Vec<Circuit>,
    /// How the vehicle is used, in the order in which the day goes.
    pub day: Vec<DayPart>,
    /// Overrides of single wires, by name.
    pub wires: Vec<WireWish>,
}

impl Plan {
    /// Reads a plan. The plan is there only when nothing stops it; the errors are all of them.
    pub fn read(text: &str) -> (Option<Self>, Vec<Finding>) {
        let (plan, mut errors) = read_toml(text, "plan", read_plan);
        if let Some(plan) = &plan {
            errors.extend(names::check(plan));
            errors.extend(rules::check(plan));
        }
        errors.sort_by_key(|e| (e.id != "not-toml", e.span().unwrap_or_default()));
        errors.dedup();
        (plan.filter(|_| errors.is_empty()), errors)
    }
}

fn read_plan(k: &Keys) -> Option<Plan> {
    let job = k.need_table("job", "job", "{ title = \"…\" }", job::read);
    let supply = k.need_table(
        "supply",
        "supply",
        "{ system = \"12 V\", battery = { … } }",
        supply::read,
    );
    let places = k.named("place", "place", place::read_place);
    let stretches = k.tables("stretch", "stretch", place::read_stretch);
    let feeds = k.tables("feed", "feed", feed::read_feed);
    let boxes = k.tables("box", "box", feed::read_box);
    let earths = k.tables("earth", "earth", feed::read_earth);
    let signals = k.tables("signal", "signal", signal::read);
    let (circuits, unread) = circuit::read_all(k);
    let mut day = k.tables("day", "part of the day", day::read);
    for part in &mut day {
        // A circuit that can't be read is still a circuit: what names it is not wrong.
        part.on.retain(|name| !unread.contains(&name.value));
    }
    let wires = k.named("wire", "wire", wire::read);
    Some(Plan {
        job: job?,
        supply: supply??,
        places,
        stretches,
        feeds,
        boxes,
        earths,
        signals,
        circuits,
        day,
        wires,
    })
}

#[cfg(test)]
mod tests;
