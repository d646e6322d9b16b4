//! Where places stand on the outline: where the plan says, else where their zone and the words of their names suggest,
//! apart from one another.

use super::outline::Shape;
use loom::{Loom, LoomPlace};
use plan::Zone;

/// Words of names: where they pull a place, along and across, as parts.
const WORDS: [(&str, Option<f64>, Option<f64>); 19] = [
    ("front", Some(0.1), None),
    ("nose", Some(0.0), None),
    ("bow", Some(0.0), None),
    ("grille", Some(0.0), Some(0.5)),
    ("dash", Some(0.12), Some(0.4)),
    ("console", Some(0.35), Some(0.5)),
    ("seat", Some(0.5), Some(0.3)),
    ("rear", Some(0.92), None),
    ("back", Some(0.92), None),
    ("tail", Some(0.98), Some(0.5)),
    ("tailgate", Some(0.98), Some(0.5)),
    ("end", Some(0.9), None),
    ("stern", Some(0.98), None),
    ("left", None, Some(0.12)),
    ("right", None, Some(0.88)),
    ("wing", None, Some(0.15)),
    ("side", None, Some(0.85)),
    ("battery", None, Some(0.3)),
    ("roof", Some(0.4), Some(0.5)),
];

/// Least way between two places, as a part of the width.
const APART: f64 = 0.2;
/// Rounds of moving apart.
const ROUNDS: usize = 60;

/// By place: parts of length and width.
pub(super) fn spots(loom: &Loom, shape: &Shape) -> Vec<[f64; 2]> {
    let all = loom.places.iter().enumerate();
    let mut spots: Vec<[f64; 2]> = all.map(|(i, p)| first(loom, shape, (i, p))).collect();
    let fixed: Vec<bool> = loom.places.iter().map(|p| p.at.is_some()).collect();
    for _ in 0..ROUNDS {
        for a in 0..spots.len() {
            for b in a + 1..spots.len() {
                apart(&mut spots, &fixed, shape, (a, b));
            }
        }
    }
    spots
}

fn first(loom: &Loom, shape: &Shape, (i, place): (usize, &LoomPlace)) -> [f64; 2] {
    if let Some(at) = place.at {
        return at;
    }
    let name = place.name.to_lowercase();
    let words: Vec<&str> = name.split(|c: char| !c.is_alphabetic()).collect();
    // What is on or under the cab is there, whatever its zone.
    let cab = words.iter().any(|w| ["cab", "cabin", "dash"].contains(w));
    let (from, to) = shape.zone(if cab { Zone::Cabin } else { place.zone });
    // Those of a zone whose names say nothing follow one another along it, by turns on either side.
    let before = loom.places[..i]
        .iter()
        .filter(|p| p.zone == place.zone)
        .count();
    let of = loom.places.iter().filter(|p| p.zone == place.zone).count();
    let mut along = (before as f64 + 0.5) / of as f64;
    let mut across = if before.is_multiple_of(2) { 0.35 } else { 0.65 };
    for word in words {
        if let Some((_, x, y)) = WORDS.iter().find(|(known, ..)| *known == word) {
            along = x.unwrap_or(along);
            across = y.unwrap_or(across);
        }
    }
    [from + (to - from) * along, across]
}

/// Two places that stand too near move apart, each half of the way; what the plan set stays.
fn apart(spots: &mut [[f64; 2]], fixed: &[bool], shape: &Shape, (a, b): (usize, usize)) {
    let (dx, dy) = (
        (spots[b][0] - spots[a][0]) * shape.slender,
        spots[b][1] - spots[a][1],
    );
    let far = dx.hypot(dy);
    if far >= APART || (fixed[a] && fixed[b]) {
        return;
    }
    // Two in one point part along the vehicle.
    let (ux, uy) = if far < 1e-6 {
        (1.0, 0.3)
    } else {
        (dx / far, dy / far)
    };
    let more = (APART - far) / 2.0;
    for (i, sign) in [(a, -1.0), (b, 1.0)] {
        if !fixed[i] {
            let [x, y] = spots[i];
            let x = x + sign * more * ux / shape.slender;
            let y = y + sign * more * uy;
            spots[i] = [x.clamp(0.02, 0.98), y.clamp(0.08, 0.92)];
        }
    }
}
