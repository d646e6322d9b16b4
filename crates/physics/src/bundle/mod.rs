//! Steady heat of wires laid together.
//!
//! The bundle is a round body of diameter D, `1.2 √Σd²`, that makes heat where current flows. For
//! each wire the worst case is taken: it lies in the middle, the others around it in rings, the
//! most heat for its area innermost. Inside, `T(r) = Tb + ∫ Q(<ρ) / (2 π k ρ) dρ`; outside, the
//! heat crosses the sleeve's gap (conduction and radiation), its wall, and the surface loss of
//! [`crate::wire_heat`]. `k` mixes copper, plastic and air by [`crate::mixing`].
//!
//! | symbol | meaning | unit |
//! |---|---|---|
//! | d, D | diameter of a wire, of the bundle | m |
//! | Q(<ρ) | heat made within radius ρ | W/m |
//! | Tb | temperature of the bundle's outside | K |
//!
//! Range: 1 to some 60 wires, drawn up so that they touch. Air in the gaps is taken at ambient,
//! where it conducts least. Every arrangement is the worst one, so the answer never falls when any
//! current rises. Source: the method of trade.md; lands inside the published grouping factors of
//! reference `conductors/17`. It awaits a two-dimensional finite-element check.

mod body;

use crate::conductor::resistance_at;
use crate::wire_heat::{self, RUNAWAY_K, WireBody};
use body::Body;

/// Steps are small enough to stop, K.
const WITHIN_K: f64 = 1e-8;
/// Near runaway the steps shrink slowly; by then the wire is past every limit anyway.
const MOST_PASSES: usize = 3000;

/// One wire of a bundle and what it carries.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct BundleWire {
    /// The wire.
    pub body: WireBody,
    /// Its resistance at 20 °C, Ω/m.
    pub r20_per_m: f64,
    /// Its steady current, A; 0 for an idle wire, root mean square for a varying one.
    pub amps: f64,
}

/// What is drawn over a bundle.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Sleeve {
    /// Air between bundle and sleeve, m (0 for tape or recovered shrink).
    pub gap: f64,
    /// Thickness of the wall, m.
    pub wall: f64,
    /// Thermal conductivity of the wall, W/m·K.
    pub k: f64,
    /// Emissivity of the sleeve, inside and out.
    pub emissivity: f64,
}

/// Bench rule for a bundle's diameter, m: `1.2 √Σd²`, a lone wire's own, and never less than the
/// two widest side by side.
pub fn bundle_diameter(outside_diameters: &[f64]) -> f64 {
    let (mut widest, mut second) = (0.0_f64, 0.0_f64);
    for &d in outside_diameters {
        if d > widest {
            (widest, second) = (d, widest);
        } else {
            second = second.max(d);
        }
    }
    if outside_diameters.len() < 2 {
        return widest;
    }
    let squares: f64 = outside_diameters.iter().map(|d| d * d).sum();
    (1.2 * squares.sqrt()).max(widest + second)
}

/// Conductor temperature of each wire, K, in the order given.
pub fn steady_kelvin(wires: &[BundleWire], sleeve: Option<Sleeve>, ambient_k: f64) -> Vec<f64> {
    if let ([wire], None) = (wires, sleeve) {
        return vec![wire_heat::steady_kelvin(
            &wire.body,
            wire.r20_per_m,
            wire.amps,
            ambient_k,
        )];
    }
    let body = Body::new(wires, sleeve, ambient_k);
    let mut kelvin = vec![ambient_k; wires.len()];
    // From ambient the temperatures only rise, pass by pass, to the lowest steady state.
    for _ in 0..MOST_PASSES {
        let heat: Vec<f64> = wires
            .iter()
            .zip(&kelvin)
            .map(|(wire, &k)| resistance_at(wire.amps * wire.amps * wire.r20_per_m, k))
            .collect();
        let outside = body.outside_kelvin(heat.iter().sum());
        let order = body.hottest_first(&heat);
        let mut change = 0.0_f64;
        for (index, held) in kelvin.iter_mut().enumerate() {
            let next = (outside + body.rise_in_middle(index, &heat, &order)).min(RUNAWAY_K);
            change = change.max((next - *held).abs());
            *held = next;
        }
        if change < WITHIN_K {
            break;
        }
    }
    kelvin
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::conductor::T0;
    use crate::root;
    use proptest::prelude::*;

    fn aircraft(awg: u32, amps: f64) -> BundleWire {
        let (d, over, milliohm) = match awg {
            12 => (2.2e-3, 2.77e-3, 6.6273),
            14 => (1.75e-3, 2.29e-3, 10.0394),
            _ => unreachable!(),
        };
        BundleWire {
            body: WireBody {
                conductor_d: d,
                outside_d: over,
                k_insulation: 0.24,
                emissivity: 0.9,
            },
            r20_per_m: milliohm * 1e-3,
            amps,
        }
    }

    fn vehicle(amps: f64) -> BundleWire {
        BundleWire {
            body: WireBody {
                conductor_d: 1.85e-3,
                outside_d: 2.8e-3,
                k_insulation: 0.17,
                emissivity: 0.9,
            },
            r20_per_m: 8.4709e-3,
            amps,
        }
    }

    /// Current that puts `count` equal wires at `limit`, over that of one alone.
    fn factor(wire: BundleWire, count: usize, limit: f64, ambient: f64) -> f64 {
        let alone = wire_heat::steady_amps(&wire.body, wire.r20_per_m, limit, ambient);
        let over = |amps: f64| {
            let wires = vec![BundleWire { amps, ..wire }; count];
            steady_kelvin(&wires, None, ambient)[0] - limit
        };
        root::bracketed(over, 0.1 * alone, 1.2 * alone, 1e-6) / alone
    }

    #[test]
    fn grouping_factors_lie_in_the_published_bands() {
        let cases = [
            ("FAA 12 AWG", aircraft(12, 0.0), T0 + 200.0, T0 + 25.0),
            ("FAA 14 AWG", aircraft(14, 0.0), T0 + 200.0, T0 + 25.0),
            ("14 AWG PVC at 105 °C", vehicle(0.0), T0 + 105.0, T0 + 40.0),
        ];
        for (name, wire, limit, ambient) in cases {
            let of = |count| factor(wire, count, limit, ambient);
            println!(
                "{name}: 2 {:.3}, 3 {:.3}, 7 {:.3}, 12 {:.3}, 24 {:.3}",
                of(2),
                of(3),
                of(7),
                of(12),
                of(24)
            );
            assert!((0.43..=0.52).contains(&of(12)), "{name} {}", of(12));
            assert!((0.70..=0.89).contains(&of(3)), "{name} {}", of(3));
        }
    }

    #[test]
    fn a_lone_wire_is_the_wire_of_wire_heat() {
        let wire = aircraft(12, 40.0);
        let alone = wire_heat::steady_kelvin(&wire.body, wire.r20_per_m, 40.0, 300.0);
        assert_eq!(steady_kelvin(&[wire], None, 300.0), vec![alone]);
    }

    #[test]
    fn idle_wires_cool_and_a_sleeve_warms() {
        let loaded = aircraft(12, 30.0);
        let mut wires = vec![loaded; 3];
        let bare = steady_kelvin(&wires, None, 300.0)[0];
        let sleeve = Sleeve {
            gap: 1e-3,
            wall: 0.5e-3,
            k: 0.25,
            emissivity: 0.9,
        };
        assert!(steady_kelvin(&wires, Some(sleeve), 300.0)[0] > bare);
        wires[1].amps = 0.0;
        wires[2].amps = 0.0;
        assert!(steady_kelvin(&wires, None, 300.0)[0] < bare);
    }

    #[test]
    fn nothing_flowing_is_ambient_and_too_much_is_capped() {
        assert_eq!(
            steady_kelvin(&[aircraft(12, 0.0); 5], None, 310.0),
            vec![310.0; 5]
        );
        assert_eq!(
            steady_kelvin(&[aircraft(12, 400.0); 5], None, 310.0),
            vec![RUNAWAY_K; 5]
        );
        assert!(steady_kelvin(&[], None, 310.0).is_empty());
    }

    #[test]
    fn diameter_by_the_bench_rule() {
        assert_eq!(bundle_diameter(&[]), 0.0);
        assert_eq!(bundle_diameter(&[3e-3]), 3e-3);
        assert_eq!(bundle_diameter(&[3e-3, 1e-3]), 4e-3);
        assert!((bundle_diameter(&[2e-3; 9]) - 7.2e-3).abs() < 1e-12);
    }

    fn fixed(cases: u32) -> ProptestConfig {
        ProptestConfig {
            cases,
            failure_persistence: None,
            rng_seed: proptest::test_runner::RngSeed::Fixed(20),
            ..ProptestConfig::default()
        }
    }

    proptest! {
        #![proptest_config(fixed(64))]
        #[test]
        fn no_wire_cools_when_any_current_rises(
            amps in prop::collection::vec(0.0..25.0_f64, 2..9),
            which in 0_usize..9,
            more in 0.0..10.0_f64,
        ) {
            let mut wires: Vec<_> = amps
                .iter()
                .enumerate()
                .map(|(i, &a)| if i % 2 == 0 { aircraft(12, a) } else { vehicle(a) })
                .collect();
            let before = steady_kelvin(&wires, None, 313.15);
            let which = which % wires.len();
            wires[which].amps += more;
            let after = steady_kelvin(&wires, None, 313.15);
            for (b, a) in before.iter().zip(&after) {
                prop_assert!(*a >= *b - 1e-5, "{b} then {a}");
            }
        }
    }
}
