//! Bundles against published grouping factors, a lone wire, and what must be so for any currents.

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

/// What a ring adds, 2πk times a temperature: `within` made inside it, `heat` evenly in it.
fn ring(inner: f64, outer: f64, within: f64, heat: f64) -> f64 {
    let log = 0.5 * (outer / inner).ln();
    within * log + heat * (0.5 - inner / (outer - inner) * log)
}

/// The plain way: every wire in the middle in its turn, the others around it, pass by pass from ambient.
fn pass_by_pass(wires: &[BundleWire], sleeve: Option<Sleeve>, ambient_k: f64) -> Vec<f64> {
    let body = Body::new(wires, sleeve, ambient_k);
    let kind = |i: usize| &body.kinds[body.kind_of[i]];
    let mut kelvin = vec![ambient_k; wires.len()];
    for _ in 0..500 {
        let heat: Vec<f64> = wires
            .iter()
            .zip(&kelvin)
            .map(|(w, &k)| resistance_at(w.amps * w.amps * w.r20_per_m, k))
            .collect();
        let outside = body.outside_kelvin(heat.iter().sum());
        let mut order: Vec<usize> = (0..wires.len()).collect();
        let density = |i: usize| heat[i] / kind(i).share;
        order.sort_by(|&a, &b| density(b).total_cmp(&density(a)));
        for middle in 0..wires.len() {
            let (mut within, mut inner) = (heat[middle], kind(middle).share);
            let mut rise = within * kind(middle).middle;
            for &i in order.iter().filter(|&&i| i != middle) {
                let outer = inner + kind(i).share;
                rise += ring(inner, outer, within, heat[i]) / (std::f64::consts::TAU * body.k);
                within += heat[i];
                inner = outer;
            }
            kelvin[middle] = (outside + rise).min(RUNAWAY_K);
        }
    }
    kelvin
}

const SLEEVE: Sleeve = Sleeve {
    gap: 1e-3,
    wall: 0.5e-3,
    k: 0.25,
    emissivity: 0.9,
};

/// Mixed wires; the hotter ones change places with the cooler as copper warms.
fn mixed(amps: &[f64]) -> Vec<BundleWire> {
    let each = amps.iter().enumerate();
    each.map(|(i, &a)| match i % 3 {
        0 => aircraft(12, a),
        1 => aircraft(14, a),
        _ => vehicle(a),
    })
    .collect()
}

#[test]
fn what_the_bundle_makes_leaves_its_outside() {
    let wires = mixed(&[12.0, 9.0, 0.0, 7.0, 3.0]);
    let heat = steady(&wires, None, 313.15, None);
    let across: Vec<f64> = wires.iter().map(|w| w.body.outside_d).collect();
    // To heat it is a little narrower than on the bench.
    let over = bundle_diameter(&across) * 1.12 / 1.2;
    let shed = wire_heat::surface_loss(over, 0.9, heat.outside_k, 313.15);
    assert!((shed / heat.watts_per_m - 1.0).abs() < 1e-6);
    let alone = steady(&wires[..1], None, 313.15, None);
    let shed = wire_heat::surface_loss(across[0], 0.9, alone.outside_k, 313.15);
    assert!((shed / alone.watts_per_m - 1.0).abs() < 1e-6);
    // A sleeve keeps its heat in: the outside beneath it is warmer than the bare one.
    assert!(steady(&wires, Some(SLEEVE), 313.15, None).outside_k > heat.outside_k);
    assert!(heat.kelvin.iter().all(|k| *k > heat.outside_k));
}

#[test]
fn a_lone_wire_past_every_limit_still_has_an_outside() {
    let heat = steady(&[vehicle(500.0)], None, 313.15, None);
    assert_eq!((heat.kelvin[0], heat.outside_k), (RUNAWAY_K, RUNAWAY_K));
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

    /// Two ways that stop at 1e-7 K of each other's state: 1e-5 K leaves a hundredfold.
    #[test]
    fn the_straight_lines_end_where_single_passes_end(
        amps in prop::collection::vec(0.0..40.0_f64, 2..14),
        idle in 0_usize..14,
        bare in proptest::bool::ANY,
    ) {
        let mut wires = mixed(&amps);
        let idle = idle % wires.len();
        wires[idle].amps = 0.0;
        let sleeve = (!bare).then_some(SLEEVE);
        let plain = pass_by_pass(&wires, sleeve, 313.15);
        for (ours, plain) in steady_kelvin(&wires, sleeve, 313.15).iter().zip(&plain) {
            prop_assert!((ours - plain).abs() < 1e-5, "{ours}, pass by pass {plain}");
        }
    }

    #[test]
    fn a_start_never_moves_the_answer(
        amps in prop::collection::vec(0.0..30.0_f64, 2..14),
        start in prop::collection::vec(250.0..900.0_f64, 14),
    ) {
        let wires = mixed(&amps);
        let cold = steady(&wires, Some(SLEEVE), 313.15, None);
        let warm = steady(&wires, Some(SLEEVE), 313.15, Some(&start[..wires.len()]));
        for (cold, warm) in cold.kelvin.iter().zip(&warm.kelvin) {
            prop_assert!((cold - warm).abs() < 1e-5, "{cold} then {warm}");
        }
        // A start of another bundle is none.
        prop_assert_eq!(steady(&wires, Some(SLEEVE), 313.15, Some(&[400.0; 20])), cold);
    }
}
