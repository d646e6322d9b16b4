//! A relay's coil in the heat.
//!
//! `R₁ = R₀ (234.5 + t₁) / (234.5 + t₀)`; the pull-in *current* is constant, so
//! `U₁ = U₀ · R₁ / R₀`; at `u` times its nominal voltage a coil warms itself by `52 u²` K. Switched
//! off, its current goes on through what lies across it: `Û = U · Rp / R`.
//!
//! | symbol | meaning | unit |
//! |---|---|---|
//! | R₀, U₀ | resistance and pull-in voltage at t₀ | Ω, V |
//! | t | temperature (here passed in K) | °C |
//! | U, Û | supply, peak thrown back | V |
//! | R, Rp | coil, resistor across it | Ω |
//!
//! Range: −40 °C to 155 °C. Source: relay makers' application notes and class data, reference
//! `protection/20` and `23` (read).

use crate::conductor::copper_ratio;

/// How much a coil warms itself at its nominal voltage, K.
pub const RISE_AT_NOMINAL_K: f64 = 52.0;

/// Coil resistance at `kelvin`, Ω, from `ohms` at `from_kelvin`.
pub fn resistance_at(ohms: f64, from_kelvin: f64, kelvin: f64) -> f64 {
    ohms * copper_ratio(from_kelvin, kelvin)
}

/// Pull-in voltage at `kelvin`, V, from `volts` at `from_kelvin`. Drop-out moves alike.
pub fn pull_in_volts(volts: f64, from_kelvin: f64, kelvin: f64) -> f64 {
    volts * copper_ratio(from_kelvin, kelvin)
}

/// Coil temperature after long at `volts`, K.
pub fn warm_kelvin(ambient_k: f64, volts: f64, nominal_volts: f64) -> f64 {
    ambient_k + RISE_AT_NOMINAL_K * (volts / nominal_volts).powi(2)
}

/// What a coil with a resistor across it throws back when it is switched off, V: the peak, against
/// the supply's sign.
pub fn fly_back_volts(supply_volts: f64, coil_ohms: f64, across_ohms: f64) -> f64 {
    supply_volts * across_ohms / coil_ohms
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::conductor::T0;

    #[test]
    fn published_320_ohm_coil_from_25_to_125() {
        assert!((resistance_at(320.0, T0 + 25.0, T0 + 125.0) - 443.3).abs() < 0.05);
        assert!((pull_in_volts(13.0, T0 + 25.0, T0 + 125.0) - 18.0).abs() < 0.02);
    }

    #[test]
    fn published_90_ohm_coil_from_20_to_85() {
        assert!((resistance_at(90.0, T0 + 20.0, T0 + 85.0) - 113.0).abs() < 0.05);
        assert!((pull_in_volts(6.5, T0 + 20.0, T0 + 85.0) - 8.16).abs() < 0.005);
    }

    #[test]
    fn published_120_ohm_coil_with_680_across_throws_back_68_volts() {
        assert!((fly_back_volts(12.0, 120.0, 680.0) - 68.0).abs() < 1e-12);
    }

    #[test]
    fn a_hundred_kelvin_hotter_is_1_39_times() {
        assert!((copper_ratio(T0 + 20.0, T0 + 120.0) - 1.39).abs() < 0.005);
    }
}
