//! The forms of a switch beside each other, plainly: what a chafe does in each, and what each costs in wire.

use super::chafes::{called, touches};
use super::{NO_WIRE, Two};
use crate::report::Subject;
use crate::words::counted;
use finding::joined;
use loom::{PartId, PartKind};
use plan::SwitchBreaks;
use quantity::figures;
use study::{Chafe, Touch};

/// What a switch breaks: its coil's supply or earth, or its loads themselves; none without a switch.
pub(super) fn breaks(s: &Subject, circuit: &str) -> Option<Option<SwitchBreaks>> {
    let c = s.loom.circuits.iter().find(|c| c.name == circuit)?;
    match &s.loom.part(c.switch?).kind {
        PartKind::Switch(w) => Some(w.breaks),
        _ => None,
    }
}

/// A sentence for each plan; none where their switches don't differ in form.
pub(super) fn conclusion(two: &Two, differ: &[&str]) -> Option<String> {
    let [a, b] = two.sides;
    let form = |s: &Subject, circuit: &&str| breaks(s, circuit);
    let both = |c: &&&str| form(a, c).is_some() && form(b, c).is_some() && form(a, c) != form(b, c);
    let circuits: Vec<&str> = differ.iter().filter(both).copied().collect();
    let forms = [0, 1].map(|i| in_one_form(two.sides[i], &circuits));
    let [Some(first), Some(second)] = forms else {
        return None;
    };
    let switch = format!("the switch of {}", joined(&circuits));
    let told = [
        sentence(two, 0, &circuits, &format!("{switch} {first}")),
        sentence(two, 1, &circuits, &format!("it {second}")),
    ];
    Some(told.join(" "))
}

/// The form of these circuits' switches, if they all have one.
fn in_one_form(s: &Subject, circuits: &[&str]) -> Option<&'static str> {
    let mut forms = circuits.iter().filter_map(|c| breaks(s, c));
    let first = forms.next()?;
    forms.all(|f| f == first).then_some(match first {
        Some(SwitchBreaks::Supply) => "in its coil's supply",
        Some(SwitchBreaks::Earth) => "in its coil's earth",
        None => "in its loads' supply",
    })
}

/// "With the switch of rack lamps in its coil's earth (“a.toml”) 1.9 m less wire is needed, and none of the switch's wires
/// through a panel is live with the switch off, but a chafe turns rack lamps on."
fn sentence(two: &Two, side: usize, circuits: &[&str], with: &str) -> String {
    let chafes: Vec<&Chafe> = circuits
        .iter()
        .flat_map(|c| touches(two, side, c))
        .collect();
    let (does, harm) = does(two.sides[side], &chafes);
    let (wire, more) = wire(two, side);
    let live = live(two.sides[side], &chafes);
    let plan = two.names[side];
    match (harm, more) {
        (true, false) => {
            format!("With {with} (“{plan}”) {wire}, and {live}, but {does}.")
        }
        (false, true) => {
            format!("With {with} (“{plan}”) {does}, but {wire}, and {live}.")
        }
        _ => format!("With {with} (“{plan}”) {does}, {wire}, and {live}."),
    }
}

/// What a chafe does with the switch off or on, and whether that turns something on.
fn does(s: &Subject, chafes: &[&Chafe]) -> (String, bool) {
    let (mut on, mut opens): (Vec<PartId>, bool) = (Vec::new(), false);
    let unknown = |t: &Touch| matches!(t, Touch::Unknown(_));
    if chafes.iter().any(|c| unknown(&c.off) || unknown(&c.on)) {
        return ("what a chafe does is not known".to_owned(), true);
    }
    for touch in chafes.iter().flat_map(|c| [&c.off, &c.on]) {
        match touch {
            Touch::TurnsOn(parts) => on.extend(parts),
            Touch::Opens { .. } | Touch::OpensVehicles { .. } => opens = true,
            Touch::Nothing | Touch::Unknown(_) => {}
        }
    }
    let on_words = || format!("turns {} on", called(s, &on));
    match (on.is_empty(), opens) {
        (false, false) => (format!("a chafe {}", on_words()), true),
        (false, true) => (format!("a chafe blows the fuse or {}", on_words()), true),
        (true, true) => ("a chafe blows the fuse".to_owned(), false),
        (true, false) => ("nobody notices a chafe".to_owned(), false),
    }
}

/// What a plan takes of wire beside the other, and whether that is more.
fn wire(two: &Two, side: usize) -> (String, bool) {
    let more = two.compared.metres[side] - two.compared.metres[1 - side];
    let metres = figures(more.abs(), 3);
    match more {
        m if m.abs() < NO_WIRE => ("as much wire is needed".to_owned(), false),
        m if m > 0.0 => (format!("{metres} m more wire is needed"), true),
        _ => (format!("{metres} m less wire is needed"), false),
    }
}

/// How many of these wires pass a panel and are live with the switch off: those at which a touch then blows a fuse.
fn live(s: &Subject, chafes: &[&Chafe]) -> String {
    let passes = |c: &&&Chafe| {
        let mut along = s.loom.wire(c.wire).stretches.iter();
        along.any(|x| s.loom.stretch(*x).panel.is_some())
    };
    let hot = |c: &&&Chafe| matches!(c.off, Touch::Opens { .. } | Touch::OpensVehicles { .. });
    let n = chafes.iter().filter(passes).filter(hot).count();
    let wires = counted(n, "live wire", "live wires");
    let pass = if n < 2 { "passes" } else { "pass" };
    format!("{wires} of the switch {pass} a panel while it is off")
}
