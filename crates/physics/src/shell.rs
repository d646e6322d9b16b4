//! Heat conducted through a round shell: insulation, a sleeve's wall, an air gap.
//!
//! `ΔT = q′ · ln(D/d) / (2 π k)`.
//!
//! | symbol | meaning | unit |
//! |---|---|---|
//! | q′ | heat per metre | W/m |
//! | d, D | inside and outside diameter | m |
//! | k | thermal conductivity | W/m·K |
//!
//! Range: steady, k constant. Source: Fourier's law in a cylinder; checked against the textbook
//! cases of reference `conductors/23`.

use std::f64::consts::TAU;

/// Thermal resistance of a shell, K·m/W. No shell (equal diameters), no resistance.
pub fn resistance(inside_d: f64, outside_d: f64, k: f64) -> f64 {
    if outside_d <= inside_d {
        return 0.0;
    }
    (outside_d / inside_d).ln() / (TAU * k)
}

#[cfg(test)]
mod tests {
    use super::*;
    use std::f64::consts::PI;

    #[test]
    fn plastic_covered_wire_of_the_textbook_ht1() {
        // 3 mm wire, 2 mm cover, k 0.15, h 12, 80 W over 5 m, 30 °C: 105.01 °C beneath the cover.
        let q = 80.0 / 5.0;
        let rise = q * (resistance(0.003, 0.007, 0.15) + 1.0 / (PI * 0.007 * 12.0));
        assert!((30.0 + rise - 105.01).abs() < 0.01, "{rise}");
    }

    #[test]
    fn plastic_insulated_wire_of_the_textbook_ht3_carries_13_41_amps() {
        let (d, cover) = (0.040 * 0.0254, 0.12 * 0.0254);
        let h = 1.5 * 5.678_263;
        let k = 0.20 * 1.730_735;
        let q = (100.0 / 1.8) / (resistance(d, cover, k) + 1.0 / (PI * cover * h));
        let amps = (q / 0.024_19).sqrt();
        assert!((q / 4.352 - 1.0).abs() < 1e-3 && (amps / 13.41 - 1.0).abs() < 1e-3);
    }

    #[test]
    fn nothing_around_it_resists_nothing() {
        assert_eq!(resistance(0.002, 0.002, 0.2), 0.0);
    }
}
