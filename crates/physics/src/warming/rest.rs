//! The temperatures at which a chain came to rest: where a run begins.

use super::section::Section;
use crate::root;
use crate::wire_heat::{RUNAWAY_K, surface_kelvin};

/// Steps by which the heat of the copper is brought in line with its temperature: each gains a decade.
const ROUNDS: usize = 30;
/// The copper is settled to this, K.
const WITHIN_K: f64 = 1e-6;

/// Temperatures of a section's shells, K, at rest with `amps` in a wire of `r20_per_m`, and the wires beside
/// it that run making `made` W/m each. At most [`RUNAWAY_K`].
pub fn rest(section: &Section, amps: f64, r20_per_m: f64, made: &[f64]) -> Vec<f64> {
    let cold = amps * amps * r20_per_m;
    let mut kelvin = vec![section.ambient_k; section.shells()];
    for _ in 0..ROUNDS {
        let own = crate::conductor::resistance_at(cold, kelvin[0]);
        let next = with_heat(section, own, made);
        let moved = (next[0] - kelvin[0]).abs();
        kelvin = next;
        if moved < WITHIN_K || kelvin[0] >= RUNAWAY_K {
            break;
        }
    }
    kelvin
}

/// The same with the copper's heat given, W/m.
fn with_heat(section: &Section, own: f64, made: &[f64]) -> Vec<f64> {
    let mut heat = section.given.clone();
    heat[0] += own;
    for (wire, parts) in &section.lent {
        for (heat, part) in heat.iter_mut().zip(parts) {
            *heat += part * made[*wire];
        }
    }
    let all: f64 = heat.iter().sum();
    let last = section.shells() - 1;
    let mut kelvin = vec![section.ambient_k; section.shells()];
    kelvin[last] = surface_kelvin(section.skin_d, section.emissivity, all, section.ambient_k);
    let mut through = all;
    for i in (0..last).rev() {
        through -= heat[i + 1];
        kelvin[i] = inside(section, i, through, kelvin[i + 1]).min(RUNAWAY_K);
    }
    kelvin
}

/// Temperature of shell `i` that drives `through` W/m to the next at `next_k`.
fn inside(section: &Section, i: usize, through: f64, next_k: f64) -> f64 {
    let Some(gap) = section.gap.filter(|g| g.within == i) else {
        return next_k + through / section.link[i];
    };
    // Without radiation the air alone would need the most.
    let most = next_k + through.max(0.0) / gap.still(next_k) + WITHIN_K;
    root::bracketed(
        |hot| gap.crossed(hot, next_k) - through,
        next_k,
        most,
        WITHIN_K * 1e-2,
    )
}
