//! A chain of shells: the rates at which they warm, and the slopes of those.

use crate::wire_heat::surface_loss;
use crate::{air, radiation};
use std::f64::consts::{PI, TAU};

/// A step of temperature over which the slope of the outermost loss is taken, K: small against any rise,
/// large against rounding.
const SLOPE_K: f64 = 0.01;

/// An air gap between two shells, which heat crosses through still air and as radiation.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Gap {
    /// The shell within it; the next lies outside. Their link is nothing: all that crosses is here.
    pub within: usize,
    /// Diameter of its inner wall, m.
    pub diameter: f64,
    /// Diameter of its outer wall, m.
    pub bore: f64,
    /// Emissivity that stands for both walls.
    pub emissivity: f64,
}

impl Gap {
    /// What crosses it, W/m. Air counts as cold as the cooler wall, where it passes least.
    pub fn crossed(&self, hot_k: f64, cold_k: f64) -> f64 {
        let radiated = PI * self.diameter * radiation::flux(self.emissivity, hot_k, cold_k);
        self.still(cold_k) * (hot_k - cold_k) + radiated
    }

    /// What still air passes for each kelvin, W/(m·K).
    pub(super) fn still(&self, cold_k: f64) -> f64 {
        TAU * air::at(cold_k).k / (self.bore / self.diameter).ln()
    }
}

/// A piece of wire in one surrounding, per metre, as shells from its copper outwards.
#[derive(Clone, Debug, PartialEq)]
pub struct Section {
    /// Heat that each shell takes up, J/(m·K). The first is the copper.
    pub capacity: Vec<f64>,
    /// What passes from each shell to the next, W/(m·K).
    pub link: Vec<f64>,
    /// Heat given to each shell by wires beside it whose current stays, W/m.
    pub given: Vec<f64>,
    /// Heat of wires beside it whose current changes: the wire's index in the run, and the part of its
    /// heat that each shell gets.
    pub lent: Vec<(usize, Vec<f64>)>,
    /// The gap beneath a sleeve.
    pub gap: Option<Gap>,
    /// Diameter of the outermost surface, m.
    pub skin_d: f64,
    /// Its emissivity.
    pub emissivity: f64,
    /// Temperature around it, K.
    pub ambient_k: f64,
}

impl Section {
    /// How many shells there are.
    pub fn shells(&self) -> usize {
        self.capacity.len()
    }

    /// What leaves the outermost surface, W/m.
    pub fn shed(&self, skin_k: f64) -> f64 {
        surface_loss(self.skin_d, self.emissivity, skin_k, self.ambient_k)
    }

    /// Rates of warming, K/s, where the copper makes `own` W/m and the wires of the run make `made` each.
    pub(super) fn rates(&self, kelvin: &[f64], own: f64, made: &[f64], rate: &mut [f64]) {
        rate.copy_from_slice(&self.given);
        rate[0] += own;
        for (wire, parts) in &self.lent {
            for (rate, part) in rate.iter_mut().zip(parts) {
                *rate += part * made[*wire];
            }
        }
        for (i, link) in self.link.iter().enumerate() {
            let mut passed = link * (kelvin[i] - kelvin[i + 1]);
            if let Some(gap) = self.gap.filter(|g| g.within == i) {
                passed += gap.crossed(kelvin[i], kelvin[i + 1]);
            }
            rate[i] -= passed;
            rate[i + 1] += passed;
        }
        let last = self.shells() - 1;
        rate[last] -= self.shed(kelvin[last]);
        for (rate, capacity) in rate.iter_mut().zip(&self.capacity) {
            *rate /= capacity;
        }
    }

    /// How much more the outermost surface sheds for each kelvin, W/(m·K).
    pub(super) fn shed_slope(&self, skin_k: f64) -> f64 {
        (self.shed(skin_k + SLOPE_K) - self.shed(skin_k)) / SLOPE_K
    }

    /// The slopes of the rates at `kelvin` along a change `along`, where for each kelvin the copper makes and the
    /// skin sheds so much more, W/(m·K). Heat of the other wires counts as given: they follow slowly.
    pub(super) fn slopes(
        &self,
        kelvin: &[f64],
        (own, skin): (f64, f64),
        along: &[f64],
        rate: &mut [f64],
    ) {
        rate.fill(0.0);
        rate[0] += own * along[0];
        for (i, link) in self.link.iter().enumerate() {
            let mut passed = link * (along[i] - along[i + 1]);
            if let Some(gap) = self.gap.filter(|g| g.within == i) {
                let each = 4.0 * gap.emissivity * radiation::SIGMA * PI * gap.diameter;
                let still = gap.still(kelvin[i + 1]);
                passed += (still + each * kelvin[i].powi(3)) * along[i]
                    - (still + each * kelvin[i + 1].powi(3)) * along[i + 1];
            }
            rate[i] -= passed;
            rate[i + 1] += passed;
        }
        let last = self.shells() - 1;
        rate[last] -= skin * along[last];
        for (rate, capacity) in rate.iter_mut().zip(&self.capacity) {
            *rate /= capacity;
        }
    }

    /// Heat stored above absolute zero at these temperatures, J/m.
    pub fn stored(&self, kelvin: &[f64]) -> f64 {
        self.capacity.iter().zip(kelvin).map(|(c, t)| c * t).sum()
    }
}
