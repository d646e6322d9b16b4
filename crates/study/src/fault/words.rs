//! The sentence that a person understands: what happened, what it does, how hot and how long.

use super::judge::{Evidence, Facts, Outcome};
use finding::joined;
use loom::{Loom, PartId};
use quantity::figures;

/// What comes of it, in a sentence that goes on from what happened.
pub(super) fn comes(e: &Evidence, outcome: Outcome, facts: &Facts) -> String {
    let mut tale = what(e, outcome, facts);
    if outcome != Outcome::Overheats {
        tale += &heat(e);
    }
    if let Some((load, amps)) = e.change.draws {
        let name = &e.d.loom.part(load).name;
        tale += &format!("; {name} at {} A", figures(amps, 3));
    }
    if let Some(harm) = facts.wears {
        let name = &e.d.loom.wire(harm.wire).name;
        tale += &format!(
            "; {name} is worn out within {} if nobody notices",
            time(harm.seconds)
        );
    }
    tale += &joint(facts);
    if outcome != Outcome::HarmsLoad && !facts.harms.is_empty() {
        tale += &format!("; {} at the first moment", harms(e, facts));
    }
    if e.last.buzzes {
        tale += "; a relay buzzes";
    }
    if !facts.sooner.is_empty() && outcome != Outcome::Overheats {
        let names = listed(facts.sooner.iter().map(|f| fuse_words(e.d.loom, *f)));
        tale += &format!("; {names} may open before it");
    }
    if let Some(trouble) = &e.timed.trouble {
        tale += &format!("; not followed further: {trouble}");
    }
    tale
}

fn what(e: &Evidence, outcome: Outcome, facts: &Facts) -> String {
    let loom = e.d.loom;
    let lost = match facts.dead.is_empty() {
        true => String::new(),
        false => format!("; out: {}", parts(loom, &facts.dead)),
    };
    let opening = || match facts.opens {
        Some((fuse, seconds)) => {
            format!("{} opens within {}", fuse_words(loom, fuse), time(seconds))
        }
        None => String::new(),
    };
    match outcome {
        Outcome::Overheats => overheats(e, facts),
        Outcome::Unasked => {
            let come = if facts.unasked.len() > 1 {
                "come"
            } else {
                "comes"
            };
            format!("{} {come} on unasked{lost}", parts(loom, &facts.unasked))
        }
        Outcome::WrongFuse => {
            let right = listed(e.case.fuses.iter().map(|f| loom.part(*f).name.clone()));
            format!("{}, before {right}{lost}", opening())
        }
        Outcome::OpensLate | Outcome::Opens => format!("{}{lost}", opening()),
        Outcome::HarmsLoad => match facts.opens {
            Some(_) => format!("{}, and {}{lost}", harms(e, facts), opening()),
            None => format!("{}{lost}", harms(e, facts)),
        },
        Outcome::Drains => format!(
            "{} A more flow from the parked battery",
            figures(facts.drains, 2)
        ),
        Outcome::Dead => {
            let does = if facts.dead.len() > 1 { "do" } else { "does" };
            format!("{} {does} not work", parts(loom, &facts.dead))
        }
        Outcome::Nothing => match e.timed.lasts {
            true => "more flows than usual, and nothing opens or is harmed".to_owned(),
            false if !joint(facts).is_empty() => "everything works".to_owned(),
            false => "nobody notices anything".to_owned(),
        },
    }
}

/// "E1 gets 24 V".
fn harms(e: &Evidence, facts: &Facts) -> String {
    let each = facts.harms.iter().map(|(load, volts)| {
        let name = &e.d.loom.part(*load).name;
        format!("{name} gets {} V", figures(*volts, 3))
    });
    listed(each)
}

/// A poor joint that makes less heat is not worth a word, W. Our own, no source.
const WORTH_W: f64 = 1.0;

/// The heat that a poor joint makes.
fn joint(facts: &Facts) -> String {
    match facts.joint_w {
        watts if watts >= WORTH_W => format!(
            "; {} W of heat in the joint, more than when it was sound",
            figures(watts, 2)
        ),
        _ => String::new(),
    }
}

fn overheats(e: &Evidence, facts: &Facts) -> String {
    if let Some(amps) = facts.shorts {
        return format!(
            "the battery itself is shorted: {} A flow, and nothing is there to open",
            figures(amps, 2)
        );
    }
    let Some(harm) = facts.harmed else {
        return String::new();
    };
    let names = listed(e.case.fuses.iter().map(|f| e.d.loom.part(*f).name.clone()));
    let fuse = match (e.case.fuses.is_empty(), e.timed.opened.is_empty()) {
        (true, _) => "and no fuse is there to open".to_owned(),
        (false, true) => format!("before {names} need open"),
        (false, false) => format!("though {} opens", opened(e)),
    };
    format!(
        "{} is harmed within {}, at {} °C, {fuse}",
        e.d.loom.wire(harm.wire).name,
        time(harm.seconds),
        figures(harm.kelvin - 273.15, 3)
    )
}

/// The fuses that opened before a wire was harmed.
fn opened(e: &Evidence) -> String {
    listed(
        e.timed
            .opened
            .iter()
            .map(|o| e.d.loom.part(o.0).name.clone()),
    )
}

/// A rise above what a wire has in normal use that is worth a word, K.
const WORTH_K: f64 = 10.0;

/// How hot the hottest wire got, where any warmed beyond its usual.
fn heat(e: &Evidence) -> String {
    let usual = |wire: loom::WireId| e.answers.heat.hottest[wire.0 as usize];
    let peak = e
        .timed
        .peak
        .filter(|(wire, kelvin)| *kelvin > usual(*wire) + WORTH_K);
    peak.map_or_else(String::new, |(wire, kelvin)| {
        format!(
            "; {} reaches {} °C",
            e.d.loom.wire(wire).name,
            figures(kelvin - 273.15, 3)
        )
    })
}

/// "F1", or "the vehicle's fuse before X0.2".
pub fn fuse_words(loom: &Loom, part: PartId) -> String {
    let p = loom.part(part);
    match p.kind {
        loom::PartKind::Fuse(_) => p.name.clone(),
        _ => format!("the vehicle's fuse before {}", p.name),
    }
}

/// "E1 (rack lamps) and E2 (rack lamps)".
fn parts(loom: &Loom, ids: &[PartId]) -> String {
    let each = ids.iter().map(|id| {
        let p = loom.part(*id);
        format!("{} ({})", p.name, p.label)
    });
    listed(each)
}

/// A time as people say it: "0.08 s", "40 s", "12 min", "9 h", "40 days".
pub fn time(seconds: f64) -> String {
    match seconds {
        s if s < 120.0 => format!("{} s", figures(s, 2)),
        s if s < 7200.0 => format!("{} min", figures(s / 60.0, 2)),
        s if s < 48.0 * 3600.0 => format!("{} h", figures(s / 3600.0, 2)),
        s => format!("{} days", figures(s / 86_400.0, 2)),
    }
}

fn listed(each: impl Iterator<Item = String>) -> String {
    let words: Vec<String> = each.collect();
    joined(&words.iter().map(String::as_str).collect::<Vec<_>>())
}
