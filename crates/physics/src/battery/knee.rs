//! What a lead battery resists besides, when it is nearly empty.
//!
//! `R = (Uflat − 10.5 n) / I₂₀ · (1 − charge)⁶`, so that at its rated current it ends at 10.5 V for each block.
//!
//! | symbol | meaning | unit |
//! |---|---|---|
//! | Uflat | rested voltage when flat | V |
//! | n | 12 V blocks in series | 1 |
//! | I₂₀ | rated current: capacity over twenty hours | A |
//!
//! Range: 0 ≤ charge ≤ 1, currents about the rated one. Source: reference `protection/40` (ratings end at
//! 10.5 V, read); the power six is from memory: it puts 11.6 V at a fifth of the charge and leaves the first
//! half alone, as discharge curves do.

/// Where a rated discharge ends, V for each 12 V block.
const ENDS_AT_VOLTS: f64 = 10.5;
/// How late the knee comes.
const POWER: i32 = 6;

/// The resistance, Ω.
pub fn knee_ohms(flat_open_volts: f64, blocks: f64, rated_amps: f64, charge: f64) -> f64 {
    let whole = (flat_open_volts - ENDS_AT_VOLTS * blocks).max(0.0) / rated_amps;
    whole * (1.0 - charge.clamp(0.0, 1.0)).powi(POWER)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::battery::{Chemistry, open_circuit_volts};

    fn under_load(charge: f64) -> f64 {
        let rated = 100.0 / 20.0;
        let open = |c| open_circuit_volts(Chemistry::Flooded, c, 12.0);
        open(charge) - rated * knee_ohms(open(0.0), 1.0, rated, charge)
    }

    #[test]
    fn a_rated_discharge_ends_at_ten_and_a_half_volts() {
        assert!((under_load(0.0) - 10.5).abs() < 1e-9);
    }

    #[test]
    fn the_first_half_is_left_alone_and_a_fifth_is_about_eleven_point_six() {
        assert!(open_circuit_volts(Chemistry::Flooded, 0.5, 12.0) - under_load(0.5) < 0.03);
        assert!((under_load(0.2) - 11.6).abs() < 0.1);
    }
}
