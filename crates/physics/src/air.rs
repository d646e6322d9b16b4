//! Dry air at one atmosphere, by film temperature (the mean of surface and surroundings).
//!
//! | symbol | meaning | unit |
//! |---|---|---|
//! | k | thermal conductivity | W/m·K |
//! | ν | kinematic viscosity | m²/s |
//! | Pr | Prandtl number | 1 |
//!
//! Straight lines between rows; range −40 °C to 500 °C, held at the end rows beyond. Source: a
//! heat-transfer textbook's table of air at 101.325 kPa. The rows at 45 and 60 °C were read in an
//! open library's tests (reference `conductors/22`), the others are from memory of that table.

use crate::conductor::T0;

/// Properties of air at one film temperature.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Air {
    /// Thermal conductivity, W/m·K.
    pub k: f64,
    /// Kinematic viscosity, m²/s.
    pub nu: f64,
    /// Prandtl number.
    pub pr: f64,
}

/// Rows of (°C, k, ν, Pr).
const TABLE: [(f64, f64, f64, f64); 20] = [
    (-40.0, 0.020_57, 1.008e-5, 0.7436),
    (-20.0, 0.022_11, 1.169e-5, 0.7408),
    (0.0, 0.023_64, 1.338e-5, 0.7362),
    (20.0, 0.025_14, 1.516e-5, 0.7309),
    (40.0, 0.026_62, 1.702e-5, 0.7255),
    (45.0, 0.026_99, 1.750e-5, 0.7241),
    (60.0, 0.028_08, 1.896e-5, 0.7202),
    (80.0, 0.029_53, 2.097e-5, 0.7154),
    (100.0, 0.030_95, 2.306e-5, 0.7111),
    (120.0, 0.032_35, 2.522e-5, 0.7073),
    (140.0, 0.033_74, 2.745e-5, 0.7041),
    (160.0, 0.035_11, 2.975e-5, 0.7014),
    (180.0, 0.036_46, 3.212e-5, 0.6992),
    (200.0, 0.037_79, 3.455e-5, 0.6974),
    (250.0, 0.041_04, 4.091e-5, 0.6946),
    (300.0, 0.044_18, 4.765e-5, 0.6935),
    (350.0, 0.047_21, 5.475e-5, 0.6937),
    (400.0, 0.050_15, 6.219e-5, 0.6948),
    (450.0, 0.052_98, 6.997e-5, 0.6965),
    (500.0, 0.055_72, 7.806e-5, 0.6986),
];

/// Properties of air at a film temperature in kelvin.
pub fn at(film_kelvin: f64) -> Air {
    let celsius = film_kelvin - T0;
    let above = TABLE.partition_point(|row| row.0 <= celsius);
    let (low, high) = match above {
        0 => (TABLE[0], TABLE[0]),
        n if n == TABLE.len() => (TABLE[n - 1], TABLE[n - 1]),
        n => (TABLE[n - 1], TABLE[n]),
    };
    let span = high.0 - low.0;
    let t = if span > 0.0 {
        (celsius - low.0) / span
    } else {
        0.0
    };
    let mix = |a: f64, b: f64| a + t * (b - a);
    Air {
        k: mix(low.1, high.1),
        nu: mix(low.2, high.2),
        pr: mix(low.3, high.3),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_row_is_itself() {
        let air = at(318.15);
        assert!((air.k - 0.026_99).abs() < 1e-12);
        assert!((air.nu - 1.750e-5).abs() < 1e-15);
        assert!((air.pr - 0.7241).abs() < 1e-12);
    }

    #[test]
    fn halfway_is_the_mean() {
        assert!((at(T0 + 90.0).k - 0.030_24).abs() < 1e-9);
    }

    #[test]
    fn beyond_the_ends_it_is_held() {
        assert_eq!(at(10.0), at(T0 - 40.0));
        assert_eq!(at(2000.0), at(T0 + 500.0));
    }

    #[test]
    fn hotter_air_conducts_more_and_is_thicker() {
        for pair in TABLE.windows(2) {
            assert!(pair[0].1 < pair[1].1 && pair[0].2 < pair[1].2);
        }
    }
}
