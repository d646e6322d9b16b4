//! Resistance of a copper conductor.
//!
//! `R(T) = R20 · (1 + α (T − 293.15))` and `r = ρ20 · lay / A`.
//!
//! | symbol | meaning | unit |
//! |---|---|---|
//! | R20, R(T) | resistance at 20 °C and at T (any length) | Ω or Ω/m |
//! | α | temperature coefficient at 20 °C, 0.00393 | 1/K |
//! | ρ20 | resistivity at 20 °C, 1.7241e-8 | Ω·m |
//! | lay | length of a strand over the length of its wire, about 1.02 | 1 |
//!
//! Range: −50 °C to 250 °C; used up to the melting point as an estimate. Source: IEC 60028 (1925)
//! for ρ and α; the 2 % for strand lay is common practice, measured cable differs.

/// Temperature coefficient of copper at 20 °C, 1/K.
pub const COPPER_ALPHA: f64 = 0.003_93;
/// Resistivity of annealed copper at 20 °C, Ω·m.
pub const COPPER_RHO20: f64 = 1.7241e-8;
/// The reference temperature, 20 °C, K.
pub const T20: f64 = 293.15;
/// 0 °C, K.
pub const T0: f64 = 273.15;
/// Strand length over wire length for ordinary stranding.
pub const STRAND_LAY: f64 = 1.02;
/// Where the straight line of copper's resistance meets zero (−234.5 °C), K.
pub const COPPER_ZERO_K: f64 = 38.65;

/// Resistance at `kelvin` of a conductor that has `r20` at 20 °C. Never below zero.
pub fn resistance_at(r20: f64, kelvin: f64) -> f64 {
    r20 * (1.0 + COPPER_ALPHA * (kelvin - T20)).max(0.0)
}

/// Resistance of copper at 20 °C, Ω/m, from its area (m²) and its strand lay (1 for solid).
pub fn resistance_per_metre(area: f64, lay: f64) -> f64 {
    COPPER_RHO20 * lay / area
}

/// Resistance at `to` kelvin of a winding that has `ohms` at `from`, by the ratio that coil and
/// cable standards use: `(234.5 + t₁) / (234.5 + t₀)`.
pub fn copper_ratio(from: f64, to: f64) -> f64 {
    ((to - COPPER_ZERO_K) / (from - COPPER_ZERO_K)).max(0.0)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn one_square_millimetre_of_solid_copper_is_17_24_milliohm_a_metre() {
        assert!((resistance_per_metre(1e-6, 1.0) - 0.017_241).abs() < 1e-12);
    }

    #[test]
    fn eighty_kelvin_hotter_is_31_percent_more() {
        assert!((resistance_at(1.0, T20 + 80.0) - 1.3144).abs() < 1e-12);
    }

    #[test]
    fn the_two_ways_of_writing_it_agree() {
        let line = resistance_at(1.0, 373.15);
        assert!((copper_ratio(T20, 373.15) - line).abs() < 2e-4);
    }
}
