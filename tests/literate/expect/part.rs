//! Expectations of parts: that they are there, their pins, place, rating, class.

use super::{Outcome, same, unknown};
use crate::walk::Walk;
use loom::{Part, PartKind};
use quantity::{ElectricCurrent, Quantity, amperes};

fn of<'a>(walk: &'a Walk, name: &str) -> Result<&'a Part, String> {
    let loom = walk.loom();
    let known = || loom.parts.iter().map(|p| p.name.clone());
    let found = loom.part_named(name).map(|id| loom.part(id));
    found.ok_or_else(|| unknown("part", name, known()))
}

/// "there is no K1", "there are 5 wires", "there are 2 relays"; nothing if the line is about
/// something else.
pub(super) fn count(walk: &Walk, line: &str) -> Option<Outcome> {
    let loom = walk.loom();
    if let Some(name) = line.strip_prefix("there is no ") {
        let there = loom.part_named(name).is_some() || loom.wire_named(name).is_some();
        return Some(if there {
            Err("there is one".to_owned())
        } else {
            Ok(())
        });
    }
    let rest = line
        .strip_prefix("there are ")
        .or(line.strip_prefix("there is "))?;
    let (number, what) = rest.split_once(' ')?;
    let kind = |test: fn(&PartKind) -> bool| loom.parts.iter().filter(|p| test(&p.kind)).count();
    let ours = match what.trim_end_matches('s') {
        "wire" => loom.wires.len(),
        "relay" => kind(|k| matches!(k, PartKind::Relay(_))),
        "fuse" => kind(|k| matches!(k, PartKind::Fuse(_))),
        "splice" => kind(|k| matches!(k, PartKind::Splice)),
        "connector" => kind(|k| matches!(k, PartKind::Connector { .. })),
        "earth" => kind(|k| matches!(k, PartKind::Earth(_))),
        "load" => kind(|k| matches!(k, PartKind::Load(_))),
        other => return Some(Err(format!("nobody counts “{other}”"))),
    };
    Some(same(ours.to_string(), number))
}

/// "F1 is 15 A", "F1 is miniature blade", "K1 is mini relay, 12 V", "A0.1 is auxiliary box".
pub(super) fn class(walk: &Walk, name: &str, rest: &str) -> Outcome {
    let part = of(walk, name)?;
    if let Some(fuse) = walk.fuse_of(name) {
        let kind = &walk.stock().fuses[fuse.kind].name;
        return match quantity::read::<ElectricCurrent>(rest) {
            Ok(rating) => same(amperes(fuse.rating_a).show(), &rating.show()),
            Err(_) => same(kind.clone(), rest),
        };
    }
    match walk.switchgear_of(name) {
        Some(answer) => same(answer.class.clone(), rest),
        None => same(part.label.clone(), rest),
    }
}

fn rating(walk: &Walk, name: &str, rest: &str) -> Result<(f64, f64), String> {
    of(walk, name)?;
    let fuse = walk
        .fuse_of(name)
        .ok_or_else(|| format!("{name} is no fuse"))?;
    let wanted: ElectricCurrent = quantity::read(rest).map_err(|e| e.mend)?;
    Ok((fuse.rating_a, wanted.si()))
}

pub(super) fn at_least(walk: &Walk, name: &str, rest: &str) -> Outcome {
    let (ours, wanted) = rating(walk, name, rest)?;
    if ours >= wanted {
        Ok(())
    } else {
        Err(format!("it is {ours} A"))
    }
}

pub(super) fn at_most(walk: &Walk, name: &str, rest: &str) -> Outcome {
    let (ours, wanted) = rating(walk, name, rest)?;
    if ours <= wanted {
        Ok(())
    } else {
        Err(format!("it is {ours} A"))
    }
}

/// "30 87 86 85", in the loom's order.
pub(super) fn pins(walk: &Walk, name: &str, rest: &str) -> Outcome {
    let pins = of(walk, name)?
        .pins
        .iter()
        .map(|p| walk.loom().pin(*p).terminal.as_str());
    same(pins.collect::<Vec<_>>().join(" "), rest)
}

pub(super) fn stands(walk: &Walk, name: &str, rest: &str) -> Outcome {
    same(walk.loom().place(of(walk, name)?.place).name.clone(), rest)
}

/// All the wires behind a fuse, in the loom's order.
pub(super) fn protects(walk: &Walk, name: &str, rest: &str) -> Outcome {
    of(walk, name)?;
    let fuse = walk
        .fuse_of(name)
        .ok_or_else(|| format!("{name} is no fuse"))?;
    let wires = fuse
        .protects
        .iter()
        .map(|w| walk.loom().wire(*w).name.as_str());
    same(wires.collect::<Vec<_>>().join(", "), rest)
}

/// "in every state", "in no state", or the part of their names that the states share in which it has:
/// "with cranking", "without cranking".
pub(super) fn works(walk: &Walk, name: &str, rest: &str) -> Outcome {
    of(walk, name)?;
    let id = walk.part_of(name).ok_or("no such part")?;
    let states = &walk.answers().states[..walk.answers().sized];
    let held = |s: &&job::study::StateAnswer| s.settled.energised[id.0 as usize];
    let count = states.iter().filter(held).count();
    let only = |word: &str, with: bool| {
        let named = |s: &&job::study::StateAnswer| s.state.name.contains(&format!("with {word}"));
        states.iter().all(|s| held(&s) == (named(&s) == with))
    };
    let when = rest
        .trim_start_matches("without ")
        .trim_start_matches("with ");
    let ours = match count {
        0 => "in no state".to_owned(),
        n if n == states.len() => "in every state".to_owned(),
        _ if rest.starts_with("without ") && only(when, false) => rest.to_owned(),
        _ if rest.starts_with("with ") && only(when, true) => rest.to_owned(),
        _ => "in some states".to_owned(),
    };
    same(ours, rest)
}
