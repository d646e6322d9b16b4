//! Steady heat of wires laid together.
//!
//! The bundle is a round body of diameter D, `1.12 √Σd²`, that makes heat where current flows. For
//! each wire the worst case is taken: it lies in the middle, the others around it in rings, the
//! most heat for its area innermost. Inside, `T(r) = Tb + ∫ Q(<ρ) / (2 π k ρ) dρ`; outside, the
//! heat crosses the sleeve's gap (conduction and radiation), its wall, and the surface loss of
//! [`crate::wire_heat`]. `k` mixes copper, plastic and air by [`crate::mixing`].
//!
//! | symbol | meaning | unit |
//! |---|---|---|
//! | d, D | diameter of a wire, of the bundle | m |
//! | Q(<ρ) | heat made within radius ρ | W/m |
//! | Tb | temperature of the bundle's outside | K |
//!
//! Range: 1 to some 60 wires, drawn up so that they touch. Air in the gaps is taken at ambient,
//! where it conducts least. Every arrangement is the worst one, so the answer never falls when any
//! current rises. Source: the method of trade.md; lands inside the published grouping factors of
//! reference `conductors/17`, and within 5 % of the rise of two-dimensional finite elements for the four mixes that set its constants (a fifth, solved afterwards, comes out 7 % low),
//! to which three constants of `mix` were set: a fit there, not a prediction.

mod body;
mod mix;
mod rings;
mod settle;
#[cfg(test)]
mod tests;

use crate::conductor::resistance_at;
use crate::wire_heat::{self, RUNAWAY_K, WireBody};
use body::Body;
pub(crate) use mix::Mix;

/// One wire of a bundle and what it carries.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct BundleWire {
    /// The wire.
    pub body: WireBody,
    /// Its resistance at 20 °C, Ω/m.
    pub r20_per_m: f64,
    /// Its steady current, A; 0 for an idle wire, root mean square for a varying one.
    pub amps: f64,
}

/// What is drawn over a bundle.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Sleeve {
    /// Air between bundle and sleeve, m (0 for tape or recovered shrink).
    pub gap: f64,
    /// Thickness of the wall, m.
    pub wall: f64,
    /// Thermal conductivity of the wall, W/m·K.
    pub k: f64,
    /// Emissivity of the sleeve, inside and out.
    pub emissivity: f64,
}

/// Bench rule for a bundle's diameter, m: `1.2 √Σd²`, a lone wire's own, and never less than the
/// two widest side by side.
pub fn bundle_diameter(outside_diameters: &[f64]) -> f64 {
    let (mut widest, mut second) = (0.0_f64, 0.0_f64);
    for &d in outside_diameters {
        if d > widest {
            (widest, second) = (d, widest);
        } else {
            second = second.max(d);
        }
    }
    if outside_diameters.len() < 2 {
        return widest;
    }
    let squares: f64 = outside_diameters.iter().map(|d| d * d).sum();
    (1.2 * squares.sqrt()).max(widest + second)
}

/// A bundle at its steady state.
#[derive(Clone, Debug, PartialEq)]
pub struct BundleHeat {
    /// Conductor temperature of each wire, K, in the order given.
    pub kelvin: Vec<f64>,
    /// Temperature of the bundle's outside, beneath its sleeve, K.
    pub outside_k: f64,
    /// All heat that its wires make, W/m.
    pub watts_per_m: f64,
}

/// The steady state of a bundle. `start` may give the wires' temperatures in a state much like this:
/// that can save work, and never moves the answer.
pub fn steady(
    wires: &[BundleWire],
    sleeve: Option<Sleeve>,
    ambient_k: f64,
    start: Option<&[f64]>,
) -> BundleHeat {
    if let ([wire], None) = (wires, sleeve) {
        return alone(wire, ambient_k);
    }
    settle::settle(&Body::new(wires, sleeve, ambient_k), wires, start)
}

/// Conductor temperature of each wire, K, in the order given.
pub fn steady_kelvin(wires: &[BundleWire], sleeve: Option<Sleeve>, ambient_k: f64) -> Vec<f64> {
    steady(wires, sleeve, ambient_k, None).kelvin
}

/// A lone wire without a sleeve.
fn alone(wire: &BundleWire, ambient_k: f64) -> BundleHeat {
    let kelvin = wire_heat::steady_kelvin(&wire.body, wire.r20_per_m, wire.amps, ambient_k);
    let made = resistance_at(wire.amps * wire.amps * wire.r20_per_m, kelvin);
    let outside_k = if kelvin < RUNAWAY_K {
        kelvin - made * wire.body.insulation_resistance()
    } else {
        wire_heat::surface_kelvin(wire.body.outside_d, wire.body.emissivity, made, ambient_k)
    };
    BundleHeat {
        kelvin: vec![kelvin],
        outside_k,
        watts_per_m: made,
    }
}
