//! Thermal conductivity of a mix, across parallel cylinders.
//!
//! Insulated wire as one solid: `kw = kp [kc(1+f) + kp(1−f)] / [kc(1−f) + kp(1+f)]`. Wires and air
//! together: the `k` for which `Σ φi (ki − k) / (ki + k) = 0`.
//!
//! | symbol | meaning | unit |
//! |---|---|---|
//! | kc, kp, kw | conductor, plastic, the wire as one solid | W/m·K |
//! | f | conductor's share of the wire's cross-section | 1 |
//! | φi, ki | share and conductivity of each part of the mix; Σφ = 1 | 1, W/m·K |
//!
//! Range: φ of the wires above about a half, so that they touch; below that the rule for spheres
//! or cylinders apart in air would give less. Source: the first is the composite cylinder of Z.
//! Hashin and B. W. Rosen (1964), exact outside one coated cylinder; the second is D. A. G.
//! Bruggeman's symmetric rule (1935) in two dimensions. A square stack of touching 12 AWG wires,
//! worked through its line contacts by hand, gives 0.45 where this rule gives 0.46.

use crate::root;

/// Thermal conductivity of copper near 100 °C, W/m·K.
pub const COPPER_K: f64 = 385.0;

/// Conductivity of the solid cylinder that a coated conductor behaves as, W/m·K.
pub fn coated_cylinder(conductor_k: f64, coat_k: f64, conductor_share: f64) -> f64 {
    let f = conductor_share.clamp(0.0, 1.0);
    let above = conductor_k * (1.0 + f) + coat_k * (1.0 - f);
    let below = conductor_k * (1.0 - f) + coat_k * (1.0 + f);
    coat_k * above / below
}

/// Bruggeman's conductivity of parts given as (share, conductivity), W/m·K.
pub fn bruggeman(parts: &[(f64, f64)]) -> f64 {
    let least = parts
        .iter()
        .fold(f64::INFINITY, |low, part| low.min(part.1));
    let most = parts.iter().fold(0.0_f64, |high, part| high.max(part.1));
    if least >= most {
        return most;
    }
    let excess = |k: f64| {
        parts
            .iter()
            .map(|&(share, part)| share * (part - k) / (part + k))
            .sum::<f64>()
    };
    root::bracketed(excess, least, most, 1e-12)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn two_parts_have_a_closed_form() {
        let (share, good, poor) = (0.694_f64, 1.06, 0.03);
        let b: f64 = (2.0 * share - 1.0) * (good - poor);
        let closed = 0.5 * (b + (b * b + 4.0 * good * poor).sqrt());
        let found = bruggeman(&[(share, good), (1.0 - share, poor)]);
        assert!((found / closed - 1.0).abs() < 1e-10, "{found} {closed}");
    }

    #[test]
    fn half_and_half_is_the_geometric_mean() {
        // Keller's exact result for two parts that can change places.
        let found = bruggeman(&[(0.5, 4.0), (0.5, 0.25)]);
        assert!((found - 1.0).abs() < 1e-10);
    }

    #[test]
    fn a_coat_of_nothing_is_the_conductor_and_all_coat_is_the_coat() {
        assert!((coated_cylinder(385.0, 0.2, 1.0) - 385.0).abs() < 1e-9);
        assert!((coated_cylinder(385.0, 0.2, 0.0) - 0.2).abs() < 1e-12);
    }

    #[test]
    fn one_part_is_itself() {
        assert_eq!(bruggeman(&[(1.0, 0.3)]), 0.3);
    }
}
