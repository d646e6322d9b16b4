//! Findings of a study. One finding, one file: its id, weight, question, limit and source, and how it
//! is found. The list here is what help, guide and tests are made from.

mod above_table;
mod alternator_short;
mod assumed_heat;
mod bare_tab;
#[cfg(test)]
pub(crate) mod by_hand;
mod chatter;
mod contact_overloaded;
mod crowded_stud;
mod cut_short;
mod cutout_overloaded;
mod cutout_wrong;
mod day_empties;
mod dead_load;
mod drop;
mod earth_colour;
mod feed_overloaded;
mod fuse_above_wire;
mod fuse_breaking;
mod fuse_far;
mod fuse_loaded;
mod fuse_start;
mod guessed_length;
mod idling_short;
mod never_on;
mod no_fit;
mod no_grommet;
mod no_terminal;
mod not_sized;
mod not_solved;
mod out_while_cranking;
mod over_voltage;
mod poor_earth;
mod relay_drops;
mod relay_fails;
mod relay_hot;
mod same_colour;
mod signal_overloaded;
mod sneak_path;
mod sneak_when_lost;
mod spare_way;
mod supply_overloaded;
mod switch_overloaded;
mod terminal_overloaded;
mod unfused_feeder;
mod unfused_in_cab;
mod unknown_fuse;
mod unshrouded_live;
mod wet_part;
mod wire_hot;

use crate::answers::{Answers, PartAnswer, StateAnswer};
use crate::design::Design;
use finding::{At, Finding, Weight};
use loom::{Part, PartKind};
use quantity::{Quantity, amperes};

/// What a finding is about.
pub struct About {
    /// Stable short name.
    pub id: &'static str,
    /// How much it weighs.
    pub weight: Weight,
    /// The question it asks of a loom.
    pub asks: &'static str,
    /// On whose word.
    pub source: &'static str,
    find: fn(&Design, &Answers) -> Vec<Finding>,
}

impl About {
    /// A finding of this kind at these names.
    fn at(
        &self,
        names: impl IntoIterator<Item = String>,
        says: String,
        mend: impl Into<String>,
    ) -> Finding {
        Finding {
            id: self.id,
            weight: self.weight,
            at: At::Names(names.into_iter().collect()),
            says,
            mend: mend.into(),
            source: self.source.to_owned(),
        }
    }
}

/// Every finding that a study can make, in the order in which equals are told.
pub const LIST: [&About; 48] = [
    &unfused_feeder::ABOUT,
    &unfused_in_cab::ABOUT,
    &unshrouded_live::ABOUT,
    &bare_tab::ABOUT,
    &fuse_above_wire::ABOUT,
    &wire_hot::ABOUT,
    &not_solved::ABOUT,
    &not_sized::ABOUT,
    &supply_overloaded::ABOUT,
    &sneak_path::ABOUT,
    &chatter::ABOUT,
    &relay_fails::ABOUT,
    &sneak_when_lost::ABOUT,
    &relay_drops::ABOUT,
    &dead_load::ABOUT,
    &never_on::ABOUT,
    &relay_hot::ABOUT,
    &alternator_short::ABOUT,
    &over_voltage::ABOUT,
    &cut_short::ABOUT,
    &earth_colour::ABOUT,
    &cutout_wrong::ABOUT,
    &cutout_overloaded::ABOUT,
    &above_table::ABOUT,
    &drop::ABOUT,
    &contact_overloaded::ABOUT,
    &switch_overloaded::ABOUT,
    &terminal_overloaded::ABOUT,
    &fuse_loaded::ABOUT,
    &fuse_start::ABOUT,
    &fuse_breaking::ABOUT,
    &fuse_far::ABOUT,
    &feed_overloaded::ABOUT,
    &signal_overloaded::ABOUT,
    &no_terminal::ABOUT,
    &crowded_stud::ABOUT,
    &no_grommet::ABOUT,
    &poor_earth::ABOUT,
    &spare_way::ABOUT,
    &no_fit::ABOUT,
    &unknown_fuse::ABOUT,
    &assumed_heat::ABOUT,
    &guessed_length::ABOUT,
    &day_empties::ABOUT,
    &idling_short::ABOUT,
    &out_while_cranking::ABOUT,
    &wet_part::ABOUT,
    &same_colour::ABOUT,
];

/// Everything found, the heaviest first.
pub(crate) fn all(d: &Design, answers: &Answers) -> Vec<Finding> {
    let mut found: Vec<Finding> = LIST
        .iter()
        .flat_map(|about| (about.find)(d, answers))
        .collect();
    found.sort_by_key(|f| f.weight);
    found
}

/// The verdicts of a rule that a wire breaks, with the wire's name.
fn broken<'a>(
    d: &'a Design,
    answers: &'a Answers,
    rule: &'static str,
) -> impl Iterator<Item = (&'a str, &'a crate::Verdict)> {
    answers.wires.iter().flat_map(move |w| {
        let name = d.loom.wire(w.wire).name.as_str();
        w.verdicts
            .iter()
            .filter(move |v| v.rule == rule && !v.holds())
            .map(move |v| (name, v))
    })
}

/// Relays or switches whose contact carries more than it may of its kind of load.
fn overloaded<'a>(
    d: &'a Design,
    answers: &'a Answers,
    kind: fn(&PartKind) -> bool,
) -> impl Iterator<Item = (&'a Part, &'a PartAnswer)> {
    answers
        .parts
        .iter()
        .filter(|p| p.amps > p.bears_a * (1.0 + 1e-6))
        .map(|p| (d.loom.part(p.part), p))
        .filter(move |(part, _)| kind(&part.kind))
}

/// How much of what is drawn is kept for free ways, in words to stand after it; nothing where none is.
fn kept_for_spares(d: &Design) -> String {
    let boxes = d.loom.each_part().filter_map(|(id, p)| match &p.kind {
        PartKind::Box(b) => {
            let free = b.ways.saturating_sub(crate::design::ways_used(d.loom, id));
            Some(b.spare?.si() * f64::from(free))
        }
        _ => None,
    });
    let amps: f64 = boxes.sum();
    match amps > 0.0 {
        true => format!(" ({} of it kept for free ways)", amperes(amps).show()),
        false => String::new(),
    }
}

/// The states that came to rest and last: not cranking.
fn lasting(answers: &Answers) -> impl Iterator<Item = &StateAnswer> {
    answers
        .states
        .iter()
        .filter(|s| crate::survey::lasts(&s.state, &s.settled))
}

/// The state with the engine so running in which the posts are lowest, with their volts, if they fall below the
/// battery's own rested voltage: then it is the battery that gives.
fn short<'a>(
    d: &Design,
    answers: &'a Answers,
    supply: plan::SupplyState,
) -> Option<(&'a StateAnswer, f64)> {
    let post = d.loom.parts[0].pins[0];
    let running = lasting(answers).filter(|s| s.state.supply == supply);
    let each = running.map(|s| (s, s.settled.at(post)));
    each.min_by(|a, b| a.1.total_cmp(&b.1))
        .filter(|(_, volts)| *volts < d.rested_volts(1.0))
}

/// The states that could be solved.
fn solved(answers: &Answers) -> impl Iterator<Item = &StateAnswer> {
    answers
        .states
        .iter()
        .filter(|s| s.settled.failure.is_none())
}
