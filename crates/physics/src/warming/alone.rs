//! The chain of a wire alone in still air.

use super::section::Section;
use super::shells::{edges, insulation, passes, ring};
use super::{Warmed, section};

/// A metre of a wire alone in air at `ambient_k`.
pub fn alone(wire: &Warmed, ambient_k: f64) -> Section {
    let (capacity, link) = covered(wire);
    Section {
        given: vec![0.0; capacity.len()],
        capacity,
        link,
        lent: Vec::new(),
        gap: None::<section::Gap>,
        skin_d: wire.body.outside_d.max(wire.body.conductor_d),
        emissivity: wire.body.emissivity,
        ambient_k,
    }
}

/// Capacities and links of a wire itself, from its copper to its outside.
pub(super) fn covered(wire: &Warmed) -> (Vec<f64>, Vec<f64>) {
    let radii = insulation(0.5 * wire.body.conductor_d, 0.5 * wire.body.outside_d);
    let edges = edges(&radii);
    let mut capacity: Vec<f64> = edges
        .windows(2)
        .map(|pair| wire.insulation_j_m3k * ring(pair[0], pair[1]))
        .collect();
    capacity[0] += wire.copper();
    let link = radii
        .windows(2)
        .map(|pair| passes(pair[0], pair[1], wire.body.k_insulation))
        .collect();
    (capacity, link)
}
