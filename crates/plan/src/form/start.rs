//! A plan to start from, made of a few answers: the places that a vehicle of this shape has, with lengths that are guesses
//! until somebody has measured them.

use super::value::text;
use crate::{Chemistry, Outline};
use finding::word_of;

/// What is asked of somebody who has nothing yet.
#[derive(Clone, Debug)]
pub struct Start {
    /// What the work is called.
    pub title: String,
    /// The vehicle in words.
    pub vehicle: String,
    /// Its shape.
    pub outline: Outline,
    /// 12 or 24.
    pub volts: u32,
    /// As printed on the battery: "70 Ah".
    pub capacity: String,
    /// Its kind.
    pub chemistry: Chemistry,
    /// As printed on the battery, if it is: "600 A".
    pub cranking: String,
    /// As stamped on the alternator, if it is known: "90 A".
    pub alternator: String,
}

/// A place: its name, its zone, whether it comes out.
type Spot = (&'static str, &'static str, bool);
/// A way: from, to, its length in metres, the panel on the way.
type Way = (&'static str, &'static str, f64, Option<&'static str>);

struct Shape {
    /// Where the fuse box goes: near the battery, but with enough wire before it that its fuses can break what flows.
    fuses: &'static str,
    spots: &'static [Spot],
    ways: &'static [Way],
}

// Lengths from memory, for a vehicle of middling size. A plan that starts with them says that they are guesses.
const CAR: Shape = Shape {
    fuses: "inner wing",
    spots: &[
        ("battery tray", "engine bay", false),
        ("inner wing", "engine bay", false),
        ("dash", "cabin", true),
        ("front", "outside", false),
        ("boot", "load space", false),
        ("roof", "outside", false),
    ],
    ways: &[
        ("battery tray", "inner wing", 0.8, None),
        ("inner wing", "dash", 1.8, Some("bulkhead")),
        ("inner wing", "front", 1.0, None),
        ("dash", "boot", 3.2, None),
        ("boot", "roof", 1.6, Some("roof skin")),
    ],
};
const VAN: Shape = Shape {
    fuses: "inner wing",
    spots: &[
        ("battery tray", "engine bay", false),
        ("inner wing", "engine bay", false),
        ("dash", "cabin", true),
        ("front", "outside", false),
        ("load space", "load space", false),
        ("roof", "outside", false),
        ("rear", "outside", false),
    ],
    ways: &[
        ("battery tray", "inner wing", 0.8, None),
        ("inner wing", "dash", 2.0, Some("bulkhead")),
        ("inner wing", "front", 1.2, None),
        ("dash", "load space", 2.6, None),
        ("load space", "roof", 2.2, Some("roof skin")),
        ("load space", "rear", 2.8, Some("rear panel")),
    ],
};
const PICK_UP: Shape = Shape {
    fuses: "inner wing",
    spots: &[
        ("battery tray", "engine bay", false),
        ("inner wing", "engine bay", false),
        ("dash", "cabin", true),
        ("front", "outside", false),
        ("cab rear", "cabin", false),
        ("tray", "outside", false),
        ("rear", "outside", false),
    ],
    ways: &[
        ("battery tray", "inner wing", 0.8, None),
        ("inner wing", "dash", 1.8, Some("bulkhead")),
        ("inner wing", "front", 1.0, None),
        ("dash", "cab rear", 2.0, None),
        ("cab rear", "tray", 1.4, Some("rear cab wall")),
        ("tray", "rear", 2.2, None),
    ],
};
const LORRY: Shape = Shape {
    fuses: "cab floor",
    spots: &[
        ("battery box", "underbody", false),
        ("cab floor", "cabin", false),
        ("dash", "cabin", true),
        ("front", "outside", false),
        ("bed", "outside", false),
        ("rear", "underbody", false),
    ],
    ways: &[
        ("battery box", "cab floor", 2.2, Some("cab floor")),
        ("cab floor", "dash", 1.4, None),
        ("cab floor", "front", 2.2, Some("bulkhead")),
        ("cab floor", "bed", 2.4, Some("rear cab wall")),
        ("bed", "rear", 4.6, None),
    ],
};
const TRAILER: Shape = Shape {
    fuses: "front wall",
    spots: &[
        ("battery box", "load space", false),
        ("front wall", "load space", false),
        ("drawbar", "outside", false),
        ("side", "outside", false),
        ("rear", "outside", false),
    ],
    ways: &[
        ("battery box", "front wall", 1.2, None),
        ("front wall", "drawbar", 1.4, Some("front wall")),
        ("front wall", "side", 1.8, Some("side wall")),
        ("side", "rear", 2.4, None),
    ],
};
const BOAT: Shape = Shape {
    fuses: "locker",
    spots: &[
        ("battery box", "engine space", false),
        ("locker", "load space", false),
        ("helm", "cabin", true),
        ("bow", "outside", false),
        ("bilge", "underbody", false),
        ("mast", "outside", false),
    ],
    ways: &[
        ("battery box", "locker", 1.2, None),
        ("locker", "helm", 2.0, None),
        ("locker", "bow", 4.2, None),
        ("locker", "bilge", 1.4, None),
        ("locker", "mast", 2.6, Some("deck")),
    ],
};

fn shape(outline: Outline) -> &'static Shape {
    match outline {
        Outline::Car => &CAR,
        Outline::Van => &VAN,
        Outline::PickUp => &PICK_UP,
        Outline::Lorry => &LORRY,
        Outline::Trailer => &TRAILER,
        Outline::Boat => &BOAT,
    }
}

fn line(out: &mut String, key: &str, value: &str) {
    if !value.trim().is_empty() {
        *out += &format!("{key} = {}\n", text(value.trim()));
    }
}

/// The text of such a plan.
pub fn start(s: &Start) -> String {
    let shape = shape(s.outline);
    let battery = shape.spots.first().map_or("battery", |s| s.0);
    let mut out = String::from("[job]\n");
    line(&mut out, "title", &s.title);
    line(&mut out, "vehicle", &s.vehicle);
    line(&mut out, "outline", s.outline.word());
    if s.outline == Outline::Boat {
        out += "wire = \"AWG boat\"\ncolours = \"boat\"\n";
    } else {
        out += "insulation = \"cross-linked\"   # bears an engine bay\n";
    }
    out += "drop = \"5 %\"   # common practice: 3 % where little may be lost, 10 % for what minds it little\n";
    out += "\n[supply]\n";
    line(&mut out, "system", &format!("{} V", s.volts));
    let kind = word_of(&Chemistry::WORDS, &s.chemistry);
    let mut keys = vec![format!("chemistry = {}", text(kind))];
    for (key, value) in [("capacity", &s.capacity), ("cranking", &s.cranking)] {
        if !value.trim().is_empty() {
            keys.push(format!("{key} = {}", text(value.trim())));
        }
    }
    keys.push(format!("place = {}", text(battery)));
    out += &format!("battery = {{ {} }}\n", keys.join(", "));
    if !s.alternator.trim().is_empty() {
        out += &format!("alternator = {{ rated = {} }}\n", text(s.alternator.trim()));
    }
    out += "\n[place]\n";
    for (name, zone, comes_out) in shape.spots {
        let comes_out = if *comes_out { ", comes_out = true" } else { "" };
        out += &format!("{} = {{ zone = {}{comes_out} }}\n", text(name), text(zone));
    }
    out += "\n# Lengths are guesses until you have laid a string along the way: then take guessed out.\n";
    for (from, to, metres, panel) in shape.ways {
        out += &format!(
            "[[stretch]]\nbetween = [{}, {}]\nlength = \"{metres} m\"\nguessed = true\n",
            text(from),
            text(to)
        );
        if let Some(panel) = panel {
            out += &format!("through = {{ panel = {} }}\n", text(panel));
        }
        out += "\n";
    }
    out += &format!(
        "[[box]]\nname = \"fuse box\"\nplace = {}\nways = 4\nfeed = \"battery\"\nspare = \"5 A\"\n",
        text(shape.fuses)
    );
    if s.outline == Outline::Boat || s.outline == Outline::Trailer {
        out += &format!(
            "\n# Everything returns to it by wire: there is no body to trust.\n[[earth]]\nname = \"negative bar\"\nplace = {}\nto = \"battery\"\n",
            text(battery)
        );
    }
    out
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::Plan;

    #[test]
    fn a_plan_of_every_shape_can_be_read() {
        for (_, outline) in Outline::WORDS {
            let text = start(&Start {
                title: "work \"lamps\"".into(),
                vehicle: "mine".into(),
                outline,
                volts: 24,
                capacity: "70 Ah".into(),
                chemistry: Chemistry::Agm,
                cranking: String::new(),
                alternator: "90 A".into(),
            });
            let (plan, errors) = Plan::read(&text);
            let plan = plan.unwrap_or_else(|| panic!("{errors:#?}\n{text}"));
            assert!(plan.stretches.iter().all(|s| s.guessed));
            assert_eq!(plan.job.outline, Some(outline));
        }
    }
}
