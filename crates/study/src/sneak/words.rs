//! A path in words that a person can follow with a finger on the diagram.

use super::{Direction, Step};
use crate::network::Piece;
use finding::joined;
use loom::Loom;

/// "from the battery through F2, S2 and E2.1 (work lamps), then back through K3's coil, then …".
pub(crate) fn words(loom: &Loom, path: &[Step]) -> String {
    let shown: Vec<(String, Direction, bool)> = path
        .iter()
        .filter_map(|s| Some((name(loom, s.through)?, s.way, is_earth(s))))
        .collect();
    let mut said = String::from("from the battery");
    let mut at = 0;
    while at < shown.len() {
        let (first, way, earth) = &shown[at];
        if *earth {
            said += &format!(" to {first}");
            at += 1;
            continue;
        }
        let same = shown[at..]
            .iter()
            .take_while(|(_, w, earth)| w == way && !earth);
        let group: Vec<&str> = same.map(|(n, ..)| n.as_str()).collect();
        let lead = match (at, way) {
            (0, Direction::Forwards) => " through ",
            (0, Direction::Backwards) => " back through ",
            (_, Direction::Forwards) => ", then through ",
            (_, Direction::Backwards) => ", then back through ",
        };
        said += lead;
        said += &joined(&group);
        at += group.len();
    }
    if !shown.last().is_some_and(|s| s.2) {
        said += " to the battery";
    }
    said
}

fn is_earth(step: &Step) -> bool {
    matches!(step.through, Piece::Body(_)) && step.way == Direction::Forwards
}

/// A thing on the way; wires, plugs and the vehicle's own wiring go without saying.
fn name(loom: &Loom, through: Piece) -> Option<String> {
    let labelled = |p| {
        let part = loom.part(p);
        format!("{} ({})", part.name, part.label)
    };
    Some(match through {
        Piece::Load(p) => labelled(p),
        Piece::Coil(p) => format!("{}’s coil", loom.part(p).name),
        Piece::OwnLamp(p) => match &loom.part(p).kind {
            loom::PartKind::Signal(s) if s.lamp.is_some() => {
                format!("the vehicle’s own lamps on “{}”", loom.part(p).label)
            }
            _ => format!("what the vehicle has on “{}”", loom.part(p).label),
        },
        Piece::Fuse(p) | Piece::Contact(p) => loom.part(p).name.clone(),
        Piece::Sense(p) => format!("{}’s own supply", loom.part(p).name),
        Piece::Body(p) => labelled(p),
        Piece::Feed(p) => match &loom.part(p).kind {
            loom::PartKind::Signal(_) => format!("the signal “{}”", loom.part(p).label),
            _ => return None,
        },
        _ => return None,
    })
}
