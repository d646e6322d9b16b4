//! A short circuit, too quick for heat to leave the conductor.
//!
//! `k = √( Qc (B + 20) / ρ20 · ln((B + Tf) / (B + Ti)) )`, `I² t = k² A²`, `dT/dt = J² ρ / Qc`.
//!
//! | symbol | meaning | unit |
//! |---|---|---|
//! | Qc | volumetric heat capacity | J/m³·K |
//! | B | below 0 °C, where resistance would vanish | °C |
//! | ρ20 | resistivity at 20 °C | Ω·m |
//! | Ti, Tf | temperature before and after (here passed in K) | °C |
//! | k | A·√s/m²; tables print A·√s/mm², a millionth of it | A·√s/m² |
//! | A, J | area, current density | m², A/m² |
//!
//! Range: up to 5 s. Source: IEC 60364-5-54 Annex A (constants read in reference `conductors/24`);
//! IEC 60364-4-43 for the 5 s.

use crate::conductor::T0;

/// Longest time the law is stated for, s.
pub const LONGEST_S: f64 = 5.0;

/// A conductor's metal, as the annex tabulates it.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Metal {
    /// B, °C below zero.
    pub beta: f64,
    /// Volumetric heat capacity, J/m³·K.
    pub heat_capacity: f64,
    /// Resistivity at 20 °C, Ω·m.
    pub rho20: f64,
}

/// Copper.
pub const COPPER: Metal = Metal {
    beta: 234.5,
    heat_capacity: 3.45e6,
    rho20: 17.241e-9,
};
/// Aluminium.
pub const ALUMINIUM: Metal = Metal {
    beta: 228.0,
    heat_capacity: 2.5e6,
    rho20: 28.264e-9,
};

/// The k factor, A·√s/m²; 0 where there is no rise to use.
pub fn k_factor(metal: &Metal, from_k: f64, to_k: f64) -> f64 {
    let above = |kelvin: f64| metal.beta + kelvin - T0;
    if to_k <= from_k || above(from_k) <= 0.0 {
        return 0.0;
    }
    let stored = metal.heat_capacity * (metal.beta + 20.0) / metal.rho20;
    (stored * (above(to_k) / above(from_k)).ln()).sqrt()
}

/// The I²t a conductor of `area` (m²) can take, A²s.
pub fn withstand(k: f64, area: f64) -> f64 {
    (k * area).powi(2)
}

/// How long it can take `amps`, s.
pub fn withstand_seconds(k: f64, area: f64, amps: f64) -> f64 {
    withstand(k, area) / (amps * amps)
}

/// The area that `amps` for `seconds` needs, m².
pub fn least_area(k: f64, amps: f64, seconds: f64) -> f64 {
    amps * seconds.sqrt() / k
}

/// Temperature after an I²t of `joule` (A²s) in `area` (m²), K: the k factor turned round.
pub fn kelvin_after(metal: &Metal, from_k: f64, area: f64, joule: f64) -> f64 {
    let stored = metal.heat_capacity * (metal.beta + 20.0) / metal.rho20;
    let zero_k = T0 - metal.beta;
    zero_k + (from_k - zero_k) * (joule / (area * area * stored)).exp()
}

/// Rate of warming at `density` (A/m²) and `kelvin`, K/s.
pub fn heating_rate(metal: &Metal, density: f64, kelvin: f64) -> f64 {
    let rho = metal.rho20 * (metal.beta + kelvin - T0) / (metal.beta + 20.0);
    density * density * rho / metal.heat_capacity
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Reference conductors/24: (Ti, Tf, copper, aluminium) in °C and A·√s/mm².
    const TABLE: [(f64, f64, f64, f64); 10] = [
        (70.0, 160.0, 114.84, 76.09),
        (70.0, 140.0, 102.65, 68.03),
        (90.0, 160.0, 99.74, 66.06),
        (90.0, 140.0, 85.43, 56.60),
        (90.0, 250.0, 142.87, 94.55),
        (60.0, 200.0, 140.73, 93.22),
        (85.0, 220.0, 133.97, 88.69),
        (180.0, 350.0, 132.30, 87.41),
        (30.0, 160.0, 142.69, 94.61),
        (30.0, 250.0, 175.57, 116.31),
    ];

    #[test]
    fn every_tabulated_k() {
        for (ti, tf, copper, aluminium) in TABLE {
            let k = |metal| k_factor(metal, T0 + ti, T0 + tf) / 1e6;
            assert!(
                (k(&COPPER) - copper).abs() < 0.01,
                "{ti} {tf} {}",
                k(&COPPER)
            );
            assert!((k(&ALUMINIUM) - aluminium).abs() < 0.01, "{ti} {tf}");
        }
    }

    #[test]
    fn worked_examples_of_least_area() {
        assert!((least_area(115e6, 120.0, 0.4) * 1e6 - 0.66).abs() < 0.005);
        assert!((least_area(115e6, 328.0, 0.4) * 1e6 - 1.80).abs() < 0.005);
    }

    #[test]
    fn ten_amps_a_square_millimetre_warms_half_a_kelvin_a_second() {
        assert!((heating_rate(&COPPER, 1e7, 293.15) - 0.4997).abs() < 1e-4);
    }

    #[test]
    fn temperature_and_k_undo_each_other() {
        let k = k_factor(&COPPER, 343.15, 433.15);
        let after = kelvin_after(&COPPER, 343.15, 1e-6, withstand(k, 1e-6));
        assert!((after - 433.15).abs() < 1e-9);
        assert_eq!(k_factor(&COPPER, 400.0, 390.0), 0.0);
    }
}
