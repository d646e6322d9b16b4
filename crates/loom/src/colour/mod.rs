//! Wire colours by IEC 60757 codes. Takes a loom whose wires have none yet and the plan's habit; gives every wire its colour,
//! so that wires which meet in a bundle or at a connector are told apart as far as colours go. Earth's base is no other
//! wire's, and supply's neither; what the installer set stays.
//!
//! | file | step |
//! |---|---|
//! | `habit` | which colours a habit has, from one table with its source |
//! | `strands` | wires that are one conductor with one purpose, and so one colour; which of them meet |

mod habit;
mod strands;

use crate::{Loom, PartKind, Role, WireId};
use habit::Habit;
use plan::{Colours, FeedKind, LoadKind};
use std::collections::BTreeMap;
use std::fmt;
use strands::Strand;

/// Base and stripe.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Colour {
    /// Base, IEC 60757 code.
    pub base: String,
    /// Stripe, if any.
    pub stripe: Option<String>,
}

impl fmt::Display for Colour {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(&self.base)?;
        self.stripe.as_ref().map_or(Ok(()), |s| write!(f, "/{s}"))
    }
}

/// What the colours of a loom mean.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Palette {
    /// The plan's word for it: "road".
    pub habit: &'static str,
    /// Base of earths and returns.
    pub earth: String,
    /// Bases of what is live with no switch before it: from the battery, behind a fuse, with the ignition.
    pub live: Vec<String>,
    /// What each colour means, as a person reads it.
    pub says: String,
    /// On whose word.
    pub source: String,
}

/// Gives every wire that has none its colour.
pub(crate) fn paint(loom: &mut Loom, colours: Colours) {
    let habit = Habit::of(colours.word());
    let strands = strands::all(loom);
    let mut painted: Vec<Option<Colour>> = vec![None; strands.len()];
    // What the installer set counts before anything is chosen.
    for (strand, colour) in strands.iter().zip(&mut painted) {
        let set = strand.wires.iter().map(|w| loom.wire(*w));
        *colour = set
            .filter(|w| w.set.colour)
            .map(|w| w.colour.clone())
            .next();
    }
    for i in 0..strands.len() {
        if painted[i].is_none() {
            painted[i] = Some(choose(loom, &habit, (&strands, &painted), i));
        }
    }
    for (strand, colour) in strands.iter().zip(painted) {
        for w in &strand.wires {
            let wire = &mut loom.wires[w.0 as usize];
            if let Some(colour) = colour.as_ref().filter(|_| !wire.set.colour) {
                wire.colour = colour.clone();
            }
        }
    }
    loom.palette = habit.palette(colours.word());
}

/// The first of a strand's colours that nothing it meets has; where all are taken, the one that fewest have. Earths come
/// to one potential and are all alike.
fn choose(
    loom: &Loom,
    habit: &Habit,
    (strands, painted): (&[Strand], &[Option<Colour>]),
    at: usize,
) -> Colour {
    let strand = &strands[at];
    let choices = choices(loom, habit, strand);
    if strand.earths() {
        return choices[0].clone();
    }
    let alike = |colour: &&Colour| -> usize {
        let met = strand.meets.iter().filter(|(other, _)| {
            let theirs = painted[*other].as_ref();
            theirs == Some(*colour)
        });
        met.map(|(_, weight)| weight).sum()
    };
    // `min_by_key` keeps the first of equals.
    let best = choices.iter().min_by_key(alike);
    best.unwrap_or(&choices[0]).clone()
}

/// The colours that a strand may have, the usual one first.
fn choices(loom: &Loom, habit: &Habit, strand: &Strand) -> Vec<Colour> {
    let first = loom.wire(strand.wires[0]);
    let number = first.circuit.map_or(0, |c| loom.circuits[c].number) as usize;
    let nth = number.saturating_sub(1);
    let ignition = || fed_by_ignition(loom, strand.wires[0]);
    let fed = || {
        let base = if ignition() {
            &habit.ignition
        } else {
            &habit.feed
        };
        habit.striped(base, Some(nth))
    };
    match strand.role {
        Role::Earth | Role::Return => vec![habit::plain(&habit.earth)],
        Role::CoilEarth if strand.earthed => vec![habit::plain(&habit.earth)],
        Role::Lead | Role::Feeder if ignition() => habit.striped(&habit.ignition, None),
        Role::Lead | Role::Feeder => habit.striped(&habit.supply, None),
        // A coil's wire before its switch is as live as what feeds it.
        Role::Supply => fed(),
        Role::Coil if strand.fed => fed(),
        Role::Coil => habit.striped(&habit.coil, Some(nth)),
        Role::CoilEarth => habit.striped(&habit.earth, Some(nth)),
        Role::Switched => match by_load(loom, habit, first.circuit) {
            // Nothing switches it: it is as live as what feeds it.
            None if strand.fed || !is_switched(loom, strand.wires[0]) => fed(),
            base => habit.switched(base, nth),
        },
    }
}

/// Whether a switch or a relay's contact stands between a wire and its fuse.
fn is_switched(loom: &Loom, wire: WireId) -> bool {
    back(loom, wire).any(|kind| matches!(kind, PartKind::Switch(_) | PartKind::Relay(_)))
}

/// The base that a habit has for what a circuit drives, if it all is of one kind.
fn by_load<'h>(loom: &Loom, habit: &'h Habit, circuit: Option<usize>) -> Option<&'h str> {
    let loads = &loom.circuits[circuit?].loads;
    let all = |test: fn(LoadKind) -> bool| {
        let kinds = loads.iter().map(|l| &loom.part(*l).kind);
        !loads.is_empty()
            && kinds
                .into_iter()
                .all(|k| matches!(k, PartKind::Load(l) if test(l.kind)))
    };
    if all(|k| matches!(k, LoadKind::Lamp(_))) {
        return habit.lamp.as_deref();
    }
    habit
        .motor
        .as_deref()
        .filter(|_| all(|k| k == LoadKind::Motor))
}

/// Whether what a wire carries comes from an ignition tap.
fn fed_by_ignition(loom: &Loom, wire: WireId) -> bool {
    let tap =
        |kind: &PartKind| matches!(kind, PartKind::Feed(f) if f.kind == FeedKind::IgnitionTap);
    back(loom, wire).any(tap)
}

/// The parts that a wire's current comes through, back to its source.
fn back(loom: &Loom, wire: WireId) -> impl Iterator<Item = &PartKind> {
    let from = Some(loom.wire(wire).from);
    let pins = std::iter::successors(from, |pin| loom.before(*pin));
    // Sources stand nowhere behind themselves.
    let pins = pins.take(loom.pins.len());
    pins.map(|pin| &loom.part_of(pin).kind)
}

impl Loom {
    /// Pairs of wires with the same colour that are different conductors and meet in a bundle or at a connector; of each two
    /// conductors the first such pair. Earths are not counted.
    pub fn alike(&self) -> Vec<[WireId; 2]> {
        let strands = strands::all(self);
        let mut of = vec![0; self.wires.len()];
        for (i, strand) in strands.iter().enumerate() {
            for w in &strand.wires {
                of[w.0 as usize] = i;
            }
        }
        let mut pairs: BTreeMap<[usize; 2], [WireId; 2]> = BTreeMap::new();
        for here in strands::meetings(self) {
            for (i, a) in here.iter().enumerate() {
                for b in &here[i + 1..] {
                    let both = [of[a.0 as usize], of[b.0 as usize]];
                    let [one, other] = both.map(|i| &strands[i]);
                    let apart = one.conductor == other.conductor || one.earths() && other.earths();
                    if !apart && self.wire(*a).colour == self.wire(*b).colour {
                        pairs.entry(both).or_insert([*a, *b]);
                    }
                }
            }
        }
        pairs.into_values().collect()
    }
}

#[cfg(test)]
mod tests;
