//! The round body that a bundle is taken for: how wide it is to heat, and how well it conducts inside.
//!
//! Three figures were set by two-dimensional finite elements (`tests/published/fem`), which hold the hottest
//! wire of four mixes and, in time, of one of nineteen: drawn-up wires are a little closer than the bench rule
//! has them; heat goes through lines of contact, so the mix conducts less than its shares say; and least where
//! it leaves the wire itself. With none of them the hottest wire came out 5 to 10 % of its rise too cool.

use super::{Sleeve, bundle_diameter};
use crate::wire_heat::WireBody;
use crate::{air, mixing};

/// Diameter to heat over `√Σd²`: between tape drawn straight from wire to wire (1.10) and the circle around (1.14).
const TIGHT: f64 = 1.12;
/// The same of the bench rule.
const BENCH: f64 = 1.2;
/// What lines of contact leave of the mixed conductivity.
const LINES: f64 = 0.9;
/// What they leave of it in a wire's own room, from its outside to where the others begin.
const ROOM: f64 = 0.38;

/// A bundle's body.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) struct Mix {
    /// Diameter of its outside to heat, m.
    pub diameter: f64,
    /// Sum of the squares of its wires' diameters, m².
    pub squares: f64,
    /// Mixed conductivity inside, W/m·K.
    pub k: f64,
    /// The same from a wire's outside to where the others begin, W/m·K.
    pub room_k: f64,
    /// How much narrower it is, all round, than the bench rule has it, m: room beneath a loose sleeve.
    pub slack: f64,
    /// Emissivity of its outside.
    pub emissivity: f64,
}

impl Mix {
    /// Of wires laid together at `ambient_k`.
    pub(crate) fn new<'a>(
        wires: impl Iterator<Item = &'a WireBody> + Clone,
        ambient_k: f64,
    ) -> Self {
        let across: Vec<f64> = wires.clone().map(|w| w.outside_d).collect();
        let bench = bundle_diameter(&across);
        let squares: f64 = across.iter().map(|d| d * d).sum();
        let around: f64 = across.iter().sum();
        // The rule of mixing was trialled with the bench rule's share of air.
        let filled = squares / (bench * bench);
        let mut parts: Vec<(f64, f64)> = wires
            .clone()
            .map(|w| {
                let copper = (w.conductor_d / w.outside_d).powi(2);
                let solid = mixing::coated_cylinder(mixing::COPPER_K, w.k_insulation, copper);
                (filled * w.outside_d.powi(2) / squares, solid)
            })
            .collect();
        parts.push((1.0 - filled, air::at(ambient_k).k));
        let diameter = match across.len() {
            0 | 1 => bench,
            _ => bench * TIGHT / BENCH,
        };
        let k = LINES * mixing::bruggeman(&parts);
        Self {
            diameter,
            squares,
            k,
            room_k: ROOM * k,
            slack: 0.5 * (bench - diameter),
            emissivity: wires.map(|w| w.emissivity * w.outside_d / around).sum(),
        }
    }

    /// A sleeve as it lies over this body: one that is loose keeps its bore.
    pub(crate) fn beneath(&self, sleeve: Sleeve) -> Sleeve {
        match sleeve.gap > 0.0 {
            true => Sleeve {
                gap: sleeve.gap + self.slack,
                ..sleeve
            },
            false => sleeve,
        }
    }
}
