//! How slowly a wire warms, and what a load that comes and goes leaves of its steady rise.
//!
//! `c = ρc·cc·A + s·(π/4)(D² − d²)`, `τ = c ΔT / q′`, and for a body of one time constant that is on
//! for `t` of every `p`: peak rise over steady rise `= (1 − e^(−t/τ)) / (1 − e^(−p/τ))`.
//!
//! | symbol | meaning | unit |
//! |---|---|---|
//! | c | heat that a metre takes up | J/(m·K) |
//! | A, d, D | copper's area; diameter of the conductor's circle, over the insulation | m², m |
//! | ρc, cc | copper: density 8960, specific heat 385 | kg/m³, J/(kg·K) |
//! | s | insulation, by volume: PVC 1.7e6 | J/(m³·K) |
//! | ΔT, q′ | steady rise over ambient, and the heat that leaves then | K, W/m |
//! | τ | time constant | s |
//!
//! Range: small against the time that heat takes across the wire, so one temperature does for it; air
//! between strands weighs nothing. Cross-linked polyethylene takes 2.4e6: it is slower than said here,
//! the cautious side. A bundle's τ is the sum of its wires' capacities over its own rise. Loss rises
//! faster than temperature, so τ belongs to its operating point. Source: first-order heating is
//! textbook; copper from handbooks (reference `conductors/21`: 3.45e6 by volume, read), PVC from memory
//! (IEC 60853-2).

use std::f64::consts::FRAC_PI_4;

/// Heat that copper takes up, J/(m³·K).
pub const COPPER_J_M3K: f64 = 8960.0 * 385.0;
/// Heat that PVC takes up, J/(m³·K).
const PVC_J_M3K: f64 = 1.7e6;

/// Heat that a metre of wire takes up for each kelvin, J/(m·K). The conductor's circle is not full of
/// copper, so its area is asked for.
pub fn wire_capacity(copper_area_m2: f64, conductor_d: f64, outside_d: f64) -> f64 {
    let insulation = FRAC_PI_4 * (outside_d * outside_d - conductor_d * conductor_d).max(0.0);
    COPPER_J_M3K * copper_area_m2 + PVC_J_M3K * insulation
}

/// Time constant, s, of something that takes up `capacity` (J/(m·K)) and sheds `loss_w_per_m` at its
/// steady rise. Something that sheds nothing never settles.
pub fn time_constant(capacity: f64, rise_k: f64, loss_w_per_m: f64) -> f64 {
    if loss_w_per_m <= 0.0 {
        return f64::INFINITY;
    }
    capacity * rise_k / loss_w_per_m
}

/// Peak rise over steady rise, of a load that is on for `on_s` of every `every_s`, after long.
pub fn duty_part(on_s: f64, every_s: f64, tau_s: f64) -> f64 {
    if on_s <= 0.0 {
        return 0.0;
    }
    if on_s >= every_s || tau_s <= 0.0 {
        return 1.0;
    }
    let risen = |seconds: f64| -(-seconds / tau_s).exp_m1();
    // Where it is too slow to tell one turn from the next the quotient is lost: the mean is left.
    (risen(on_s) / risen(every_s)).max(on_s / every_s).min(1.0)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::conductor::{STRAND_LAY, T0, resistance_at, resistance_per_metre};
    use crate::wire_heat::{WireBody, steady_kelvin};
    use proptest::prelude::*;

    #[test]
    fn copper_alone_takes_up_what_the_adiabatic_tables_say() {
        // Reference conductors/21 and 24: 3.45e6 J/m³K.
        assert!((wire_capacity(1e-6, 1.2e-3, 1.2e-3) / 3.45 - 1.0).abs() < 1e-3);
        // One millimetre of PVC around two: a ring of 3π mm².
        let ring = wire_capacity(0.0, 2e-3, 4e-3);
        assert!((ring / (1.7 * 3.0 * std::f64::consts::PI) - 1.0).abs() < 1e-12);
    }

    #[test]
    fn at_one_instant_it_warms_as_fast_as_its_heat_over_its_capacity() {
        // ΔT/τ is the first slope: q′/c.
        let tau = time_constant(6.0, 40.0, 5.0);
        assert!((40.0 / tau - 5.0 / 6.0).abs() < 1e-12);
        assert_eq!(time_constant(6.0, 40.0, 0.0), f64::INFINITY);
    }

    #[test]
    fn a_thin_wire_takes_a_minute_or_two_and_a_thick_one_many() {
        let tau = |area_mm2: f64, d_mm: f64, over_mm: f64, amps: f64| {
            let body = WireBody {
                conductor_d: d_mm * 1e-3,
                outside_d: over_mm * 1e-3,
                k_insulation: 0.17,
                emissivity: 0.9,
            };
            let r20 = resistance_per_metre(area_mm2 * 1e-6, STRAND_LAY);
            let hot = steady_kelvin(&body, r20, amps, T0 + 40.0);
            let capacity = wire_capacity(area_mm2 * 1e-6, body.conductor_d, body.outside_d);
            let loss = amps * amps * resistance_at(r20, hot);
            time_constant(capacity, hot - T0 - 40.0, loss)
        };
        let (thin, thick) = (tau(1.0, 1.35, 2.1, 15.0), tau(35.0, 8.3, 10.4, 180.0));
        println!("1 mm²: {thin:.0} s, 35 mm²: {thick:.0} s");
        assert!((30.0..120.0).contains(&thin), "{thin}");
        assert!((300.0..1200.0).contains(&thick), "{thick}");
    }

    #[test]
    fn extremes_of_the_time_constant() {
        assert_eq!(duty_part(10.0, 60.0, 0.0), 1.0);
        assert_eq!(duty_part(10.0, 60.0, 1e-300), 1.0);
        assert!((duty_part(10.0, 60.0, 1e12) - 1.0 / 6.0).abs() < 1e-9);
        assert_eq!(duty_part(10.0, 60.0, f64::INFINITY), 10.0 / 60.0);
        assert!((duty_part(10.0, 60.0, f64::MAX) - 1.0 / 6.0).abs() < 1e-9);
        assert_eq!(duty_part(0.0, 60.0, 50.0), 0.0);
        assert_eq!(duty_part(60.0, 60.0, 50.0), 1.0);
    }

    #[test]
    fn stepping_through_on_and_off_ends_at_the_same_peak() {
        let (on, every, tau) = (20.0, 75.0, 40.0_f64);
        let (mut rise, mut peak) = (0.0, 0.0);
        for _ in 0..100 {
            peak = 1.0 + (rise - 1.0) * (-on / tau).exp();
            rise = peak * (-(every - on) / tau).exp();
        }
        assert!((duty_part(on, every, tau) - peak).abs() < 1e-12);
    }

    fn fixed() -> ProptestConfig {
        ProptestConfig {
            cases: 256,
            failure_persistence: None,
            rng_seed: proptest::test_runner::RngSeed::Fixed(7),
            ..ProptestConfig::default()
        }
    }

    // 1e-12 is what rounding leaves.
    proptest! {
        #![proptest_config(fixed())]
        #[test]
        fn between_its_mean_and_the_whole(
            on in 0.0..1.0_f64, every in 0.1..1e5_f64, log_tau in -6.0..12.0_f64,
        ) {
            let part = duty_part(on * every, every, 10.0_f64.powf(log_tau));
            prop_assert!(part >= on - 1e-12 && part <= 1.0 + 1e-12, "{part}");
        }

        #[test]
        fn longer_on_is_never_cooler(
            on in 0.0..1.0_f64, more in 0.0..1.0_f64, every in 0.1..1e5_f64, log_tau in -6.0..12.0_f64,
        ) {
            let tau = 10.0_f64.powf(log_tau);
            let (short, long) = (duty_part(on * every, every, tau), duty_part((on + more) * every, every, tau));
            prop_assert!(long >= short - 1e-12, "{short} then {long}");
        }

        #[test]
        fn slower_is_never_hotter(
            on in 0.0..1.0_f64, every in 0.1..1e5_f64, log_tau in -6.0..12.0_f64, slower in 1.0..1e3_f64,
        ) {
            let tau = 10.0_f64.powf(log_tau);
            let (quick, slow) = (duty_part(on * every, every, tau), duty_part(on * every, every, tau * slower));
            prop_assert!(slow <= quick + 1e-12, "{quick} then {slow}");
        }
    }
}
