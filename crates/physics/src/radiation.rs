//! Heat radiated by a surface to surroundings much larger than itself.
//!
//! `q″ = ε σ (Ts⁴ − Ta⁴)`; across a narrow round gap the emissivity is
//! `1 / (1/ε₁ + (D₁/D₂)(1/ε₂ − 1))`.
//!
//! | symbol | meaning | unit |
//! |---|---|---|
//! | ε | emissivity (0.9 for ordinary insulation) | 1 |
//! | σ | 5.670374419e-8 | W/m²·K⁴ |
//! | D₁, D₂ | inner and outer diameter of the gap | m |
//!
//! Range: grey surfaces. Source: Stefan–Boltzmann law, σ from CODATA 2018 (from memory); the gap is
//! the textbook case of two long concentric cylinders.

/// Stefan–Boltzmann constant, W/m²·K⁴.
pub const SIGMA: f64 = 5.670_374_419e-8;

/// Heat radiated, W/m² of the hot surface.
pub fn flux(emissivity: f64, surface_k: f64, ambient_k: f64) -> f64 {
    emissivity * SIGMA * (surface_k.powi(4) - ambient_k.powi(4))
}

/// The emissivity that stands for two facing cylinders, by the inner one's area.
pub fn between(inner: f64, outer: f64, diameter_ratio: f64) -> f64 {
    1.0 / (1.0 / inner + diameter_ratio * (1.0 / outer - 1.0))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_black_body_at_300_k_radiates_459_watts() {
        assert!((flux(1.0, 300.0, 0.0) - 459.300_327_939).abs() < 1e-6);
    }

    #[test]
    fn two_black_cylinders_are_black_and_a_far_outer_one_does_not_matter() {
        assert!((between(1.0, 1.0, 0.7) - 1.0).abs() < 1e-15);
        assert!((between(0.8, 0.3, 0.0) - 0.8).abs() < 1e-15);
    }
}
