//! A tungsten lamp away from its rated voltage, and cold.
//!
//! `I = I₀ (U/U₀)^0.55`, light `(U/U₀)^3.4`, life `(U/U₀)^−13`; cold resistance 1/12 of hot.
//!
//! | symbol | meaning | unit |
//! |---|---|---|
//! | U₀, I₀ | rated voltage and current | V, A |
//!
//! Range: 0.5 to 1.3 of rated voltage (lower down the filament nears its cold resistance). Source:
//! reference `protection/30` (exponents read: current 0.55, light 3.4 to 3.5, life −12 to −16) and
//! `31` (cold multiple read: 10 to 15, a 55 W halogen lamp 13).

/// Exponent of current.
pub const CURRENT_EXPONENT: f64 = 0.55;
/// Exponent of light; the lower of those published.
pub const LIGHT_EXPONENT: f64 = 3.4;
/// Exponent of life; near the cautious end for overvoltage of those published.
pub const LIFE_EXPONENT: f64 = -13.0;
/// Hot resistance over cold.
pub const COLD_MULTIPLE: f64 = 12.0;

/// Steady current at `volts`, A.
pub fn amps_at(rated_volts: f64, rated_amps: f64, volts: f64) -> f64 {
    rated_amps * (volts / rated_volts).powf(CURRENT_EXPONENT)
}

/// Light over its rated light.
pub fn light_ratio(rated_volts: f64, volts: f64) -> f64 {
    (volts / rated_volts).powf(LIGHT_EXPONENT)
}

/// Life over its rated life.
pub fn life_ratio(rated_volts: f64, volts: f64) -> f64 {
    (volts / rated_volts).powf(LIFE_EXPONENT)
}

/// Resistance of the cold filament, Ω.
pub fn cold_ohms(rated_volts: f64, rated_amps: f64) -> f64 {
    rated_volts / rated_amps / COLD_MULTIPLE
}

/// Current at the instant of switching on, A, through wiring of `loop_ohms`.
pub fn inrush_amps(supply_volts: f64, cold_ohms: f64, loop_ohms: f64) -> f64 {
    supply_volts / (cold_ohms + loop_ohms)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn twelve_percent_low_is_seven_percent_less_current_and_a_third_less_light() {
        // Reference protection/30, fact: current −7 %, light −34 %.
        assert!((amps_at(12.0, 1.0, 0.88 * 12.0) - 0.93).abs() < 0.005);
        assert!((light_ratio(12.0, 0.88 * 12.0) - 0.66).abs() < 0.02);
    }

    #[test]
    fn five_percent_over_about_halves_life() {
        assert!((life_ratio(12.0, 12.6) - 0.5).abs() < 0.04);
    }

    #[test]
    fn a_55_watt_lamp_starts_at_12_times_on_a_stiff_supply_and_far_less_through_a_loom() {
        let cold = cold_ohms(12.0, 55.0 / 12.0);
        let stiff = inrush_amps(12.0, cold, 0.0);
        assert!((stiff / (55.0 / 12.0) - 12.0).abs() < 1e-9);
        assert!(inrush_amps(12.0, cold, 0.2) < 0.55 * stiff);
    }
}
