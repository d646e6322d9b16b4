//! The round body that a bundle is taken for: its shares, its mixed conductivity, its way out.
//! Takes heat per metre of each wire, gives temperatures.

use super::{BundleWire, Sleeve, bundle_diameter};
use crate::wire_heat::{RUNAWAY_K, surface_kelvin};
use crate::{air, mixing, radiation, root, shell};
use std::f64::consts::{PI, TAU};

/// A bundle as heat sees it.
pub(super) struct Body {
    diameter: f64,
    /// Mixed conductivity inside, W/m·K.
    k: f64,
    emissivity: f64,
    ambient_k: f64,
    sleeve: Option<Sleeve>,
    /// Each wire's share of the cross-section.
    shares: Vec<f64>,
    /// Each wire's own resistance when it lies in the middle: insulation and its share of the mix.
    middles: Vec<f64>,
}

impl Body {
    pub(super) fn new(wires: &[BundleWire], sleeve: Option<Sleeve>, ambient_k: f64) -> Self {
        let across: Vec<f64> = wires.iter().map(|wire| wire.body.outside_d).collect();
        let diameter = bundle_diameter(&across);
        let squares: f64 = across.iter().map(|d| d * d).sum();
        let shares: Vec<f64> = across.iter().map(|d| d * d / squares).collect();
        let k = mixed_k(wires, squares / (diameter * diameter), ambient_k);
        let middles = wires
            .iter()
            .zip(&shares)
            .map(|(wire, share)| {
                let room = diameter * share.sqrt();
                wire.body.insulation_resistance() + shell::resistance(wire.body.outside_d, room, k)
            })
            .collect();
        let around: f64 = across.iter().sum();
        let emissivity = wires
            .iter()
            .map(|wire| wire.body.emissivity * wire.body.outside_d / around)
            .sum();
        Self {
            diameter,
            k,
            emissivity,
            ambient_k,
            sleeve,
            shares,
            middles,
        }
    }

    /// Temperature of the bundle's own surface when it sheds `heat` (W/m) in all.
    pub(super) fn outside_kelvin(&self, heat: f64) -> f64 {
        let Some(sleeve) = self.sleeve else {
            return surface_kelvin(self.diameter, self.emissivity, heat, self.ambient_k);
        };
        let bore = self.diameter + 2.0 * sleeve.gap;
        let over = bore + 2.0 * sleeve.wall;
        let skin = surface_kelvin(over, sleeve.emissivity, heat, self.ambient_k);
        let inner = skin + heat * shell::resistance(bore, over, sleeve.k);
        self.across_gap(bore, inner, heat).min(RUNAWAY_K)
    }

    /// Temperature inside the air gap that drives `heat` (W/m) to a bore at `bore_k`.
    fn across_gap(&self, bore: f64, bore_k: f64, heat: f64) -> f64 {
        let Some(sleeve) = self.sleeve.filter(|sleeve| sleeve.gap > 0.0) else {
            return bore_k;
        };
        let emissivity =
            radiation::between(self.emissivity, sleeve.emissivity, self.diameter / bore);
        // Air at the cooler wall conducts a little less: the cautious side, and it stays monotone.
        let still = shell::resistance(self.diameter, bore, air::at(bore_k).k);
        let short = |hot: f64| {
            let radiated = PI * self.diameter * radiation::flux(emissivity, hot, bore_k);
            (hot - bore_k) / still + radiated - heat
        };
        if heat <= 0.0 || bore_k >= RUNAWAY_K {
            return bore_k;
        }
        if short(RUNAWAY_K) < 0.0 {
            return RUNAWAY_K;
        }
        root::bracketed(short, bore_k, RUNAWAY_K, 1e-9)
    }

    /// The wires, most heat for its share of the cross-section first.
    pub(super) fn hottest_first(&self, heat: &[f64]) -> Vec<usize> {
        let mut order: Vec<usize> = (0..heat.len()).collect();
        let density = |i: usize| heat[i] / self.shares[i];
        order.sort_by(|&a, &b| density(b).total_cmp(&density(a)).then(a.cmp(&b)));
        order
    }

    /// How much hotter than the bundle's surface wire `middle` is, with the others around it.
    pub(super) fn rise_in_middle(&self, middle: usize, heat: &[f64], order: &[usize]) -> f64 {
        let mut within = heat[middle];
        let mut rise = within * self.middles[middle];
        let mut inner = self.shares[middle];
        for &ring in order.iter().filter(|&&ring| ring != middle) {
            let outer = inner + self.shares[ring];
            rise += ring_rise(inner, outer, within, heat[ring]) / (TAU * self.k);
            within += heat[ring];
            inner = outer;
        }
        rise
    }
}

/// `2πk` times the rise over a ring that makes `heat` evenly around `within`; by shares of area
/// (radius squared) inside the ring's inner and outer edge.
fn ring_rise(inner: f64, outer: f64, within: f64, heat: f64) -> f64 {
    let log = 0.5 * (outer / inner).ln();
    within * log + heat * (0.5 - inner / (outer - inner) * log)
}

/// Conductivity of the bundle's inside; `filled` is how much of its round is wire.
fn mixed_k(wires: &[BundleWire], filled: f64, ambient_k: f64) -> f64 {
    let squares: f64 = wires.iter().map(|wire| wire.body.outside_d.powi(2)).sum();
    let mut parts: Vec<(f64, f64)> = wires
        .iter()
        .map(|wire| {
            let copper = (wire.body.conductor_d / wire.body.outside_d).powi(2);
            let solid = mixing::coated_cylinder(mixing::COPPER_K, wire.body.k_insulation, copper);
            (filled * wire.body.outside_d.powi(2) / squares, solid)
        })
        .collect();
    parts.push((1.0 - filled, air::at(ambient_k).k));
    mixing::bruggeman(&parts)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_ring_that_makes_nothing_is_a_shell() {
        let rise = ring_rise(0.25, 1.0, 7.0, 0.0);
        assert!((rise - 7.0 * 2.0_f64.ln()).abs() < 1e-12);
    }

    #[test]
    fn a_whole_round_of_even_heat_rises_by_q_over_four_pi_k() {
        // A vanishing middle, all heat in the ring: the textbook solid cylinder.
        let rise = ring_rise(1e-12, 1.0, 0.0, 10.0) / (TAU * 0.4);
        assert!((rise - 10.0 / (4.0 * PI * 0.4)).abs() < 1e-6);
    }

    #[test]
    fn rings_join_without_a_seam() {
        let whole = ring_rise(0.1, 1.0, 2.0, 9.0);
        let parts = ring_rise(0.1, 0.4, 2.0, 3.0) + ring_rise(0.4, 1.0, 5.0, 6.0);
        assert!((whole - parts).abs() < 1e-12);
    }
}
