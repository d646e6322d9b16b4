//! Natural convection from a horizontal cylinder in still air.
//!
//! `Nu = {0.60 + 0.387 Ra^(1/6) / [1 + (0.559/Pr)^(9/16)]^(8/27)}²`, `Ra = g β ΔT D³ Pr / ν²`,
//! `h = Nu k / D`, with air at the film temperature and β = 1/T_film.
//!
//! | symbol | meaning | unit |
//! |---|---|---|
//! | Nu, Ra, Pr | Nusselt, Rayleigh, Prandtl numbers | 1 |
//! | D | outside diameter | m |
//! | ΔT | surface less ambient, either sign | K |
//! | h | heat-transfer coefficient | W/m²·K |
//!
//! Range: 1e-5 ≤ Ra ≤ 1e12 (a 1 mm wire 1 K warm has Ra about 0.1). Sea level, not in a draught,
//! not against a wall. Source: S. W. Churchill and H. H. S. Chu, Int. J. Heat Mass Transfer 18
//! (1975) 1049–1053; the form and check values were read in reference `conductors/22`.

use crate::air;

/// Standard gravity, m/s².
const GRAVITY: f64 = 9.806_65;

/// Root of the Nusselt number of no rise.
const STILL_ROOT: f64 = 0.60;
/// Nusselt number of no rise, which is the least.
pub(crate) const STILL: f64 = STILL_ROOT * STILL_ROOT;

/// Nusselt number of a horizontal cylinder.
pub fn nusselt(rayleigh: f64, prandtl: f64) -> f64 {
    let shape = (1.0 + (0.559 / prandtl).powf(9.0 / 16.0)).powf(8.0 / 27.0);
    let root = STILL_ROOT + 0.387 * rayleigh.max(0.0).sqrt().cbrt() / shape;
    root * root
}

/// Heat-transfer coefficient in W/m²·K of a cylinder of diameter `d` (m).
pub fn coefficient(d: f64, surface_k: f64, ambient_k: f64) -> f64 {
    let film = 0.5 * (surface_k + ambient_k);
    let air = air::at(film);
    let rise = (surface_k - ambient_k).abs();
    let rayleigh = GRAVITY / film * rise * d.powi(3) * air.pr / (air.nu * air.nu);
    nusselt(rayleigh, air.pr) * air.k / d
}

/// Heat carried off, W/m².
pub fn flux(d: f64, surface_k: f64, ambient_k: f64) -> f64 {
    // Every bracket starts here, and the powers above are dear.
    if surface_k == ambient_k {
        return 0.0;
    }
    coefficient(d, surface_k, ambient_k) * (surface_k - ambient_k)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn published_nusselt_numbers() {
        // Reference conductors/22: the library states its first value by Grashof number.
        let first = nusselt(2.63e9 * 0.69, 0.69);
        assert!(
            (first / 139.134_939_700_735_97 - 1.0).abs() < 1e-12,
            "{first}"
        );
        let second = nusselt(1.867e6, 0.7241);
        assert!((17.39..=17.40).contains(&second), "{second}");
    }

    #[test]
    fn a_pipe_of_80_mm_at_70_in_20_loses_5_87_per_kelvin() {
        let h = coefficient(0.08, 343.15, 293.15);
        assert!((h / 5.87 - 1.0).abs() < 2e-3, "{h}");
    }

    #[test]
    fn no_difference_no_flux() {
        assert_eq!(flux(0.003, 300.0, 300.0), 0.0);
        assert!(flux(0.003, 290.0, 300.0) < 0.0);
    }
}
