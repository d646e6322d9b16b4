//! What a battery resists.
//!
//! `R = (Ufull − 7.2 n) / CCA · warmth · (2 − charge)`; `Isc = Uoc / R`.
//!
//! | symbol | meaning | unit |
//! |---|---|---|
//! | Ufull | rested voltage when full | V |
//! | CCA | cranking rating: held 30 s at −18 °C down to 7.2 V | A |
//! | n | 12 V blocks in series | 1 |
//! | warmth | 1 at −18 °C, falling in a straight line to 0.5 at 25 °C and held; below −18 °C the cranking output there over that at the temperature | 1 |
//!
//! Range: 0 ≤ charge ≤ 1; held below −35 °C. Source: reference `protection/40` (definition of CCA, read;
//! “half when warm” common practice), `43` (cranking output, read); that a flat lead battery resists
//! about twice as much is from memory, as is that lithium does not.

use super::{Chemistry, cranking_factor};

/// What a cranking rating is read down to, V for each 12 V block.
const CRANKED_VOLTS: f64 = 7.2;
/// −18 °C, where cranking ratings are taken, K.
const COLD_K: f64 = 255.15;
/// 25 °C, where resistance has about halved, K.
const WARM_K: f64 = 298.15;

/// Internal resistance, Ω, at `charge` from 0 to 1. The number of 12 V blocks is told from the
/// open-circuit voltage when full.
pub fn internal_ohms(
    chemistry: Chemistry,
    cranking_amps: f64,
    full_open_volts: f64,
    charge: f64,
    kelvin: f64,
) -> f64 {
    let blocks = (full_open_volts / 12.6).round().max(1.0);
    let cold = (full_open_volts - CRANKED_VOLTS * blocks) / cranking_amps;
    let flatness = match chemistry {
        Chemistry::LithiumIron => 0.0,
        _ => 1.0 - charge.clamp(0.0, 1.0),
    };
    cold * warmth(kelvin) * (1.0 + flatness)
}

/// Resistance over that at −18 °C.
fn warmth(kelvin: f64) -> f64 {
    if kelvin < COLD_K {
        return cranking_factor(COLD_K) / cranking_factor(kelvin);
    }
    1.0 - 0.5 * ((kelvin - COLD_K) / (WARM_K - COLD_K)).min(1.0)
}

/// Current into a dead short at the posts, A.
pub fn short_circuit_amps(open_volts: f64, internal_ohms: f64) -> f64 {
    open_volts / internal_ohms
}

#[cfg(test)]
mod tests {
    use super::Chemistry::{Agm, Flooded, LithiumIron};
    use super::*;
    use crate::conductor::T0;

    #[test]
    fn six_hundred_cranking_amps_is_nine_milliohm_cold_and_half_warm() {
        assert!((internal_ohms(Flooded, 600.0, 12.6, 1.0, 255.15) - 0.009).abs() < 1e-12);
        assert!((internal_ohms(Flooded, 600.0, 12.6, 1.0, 298.15) - 0.0045).abs() < 1e-12);
        assert!((internal_ohms(Flooded, 600.0, 12.6, 1.0, 330.0) - 0.0045).abs() < 1e-12);
        let cold = short_circuit_amps(12.6, 0.009);
        assert!((cold - 1400.0).abs() < 1e-9);
    }

    #[test]
    fn two_blocks_in_series_have_twice_the_resistance() {
        let one = internal_ohms(Agm, 600.0, 12.6, 1.0, 280.0);
        assert!((internal_ohms(Agm, 600.0, 25.2, 1.0, 280.0) - 2.0 * one).abs() < 1e-12);
    }

    #[test]
    fn a_flat_one_resists_twice_as_much_but_for_lithium() {
        let at = |chemistry, charge| internal_ohms(chemistry, 600.0, 12.6, charge, 298.15);
        assert!((at(Flooded, 0.0) - 0.009).abs() < 1e-12);
        assert!((at(Agm, 0.5) - 0.006_75).abs() < 1e-12);
        assert_eq!(at(LithiumIron, 0.1), at(LithiumIron, 1.0));
        assert_eq!(at(Flooded, 3.0), at(Flooded, 1.0));
    }

    #[test]
    fn colder_is_always_more_without_a_step_at_minus_18() {
        let at = |kelvin| internal_ohms(Flooded, 600.0, 12.6, 1.0, kelvin);
        assert!((at(COLD_K - 1e-6) / at(COLD_K) - 1.0).abs() < 1e-6);
        // Output at −28.8 °C is a fifth; at −18 °C it is 39.6 % by the same rows.
        assert!((at(T0 - 28.8) / at(COLD_K) - 1.982).abs() < 1e-3);
        let mut last = at(T0 + 40.0);
        for step in 0..100 {
            let next = at(T0 + 40.0 - f64::from(step));
            assert!(next >= last && next.is_finite());
            last = next;
        }
    }
}
