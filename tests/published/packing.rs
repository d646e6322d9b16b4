//! Circles in a circle: the published best packings, reached and never undercut. Everything that is compared is first looked
//! at for circles that overlap or stick out.

use super::reference::{Look, reference};
use physics::packing::{Packing, pack};
use rayon::prelude::*;

/// Part that rounding may take.
const ROUNDING: f64 = 1e-8;

/// The radius of a packing in which nothing overlaps.
fn sound(radii: &[f64], packing: &Packing) -> f64 {
    let Packing { centres, radius } = packing;
    assert_eq!(centres.len(), radii.len());
    for (i, a) in centres.iter().enumerate() {
        let far = a[0].hypot(a[1]);
        assert!(
            far + radii[i] <= radius * (1.0 + ROUNDING),
            "{i} sticks out"
        );
        for (j, b) in centres.iter().enumerate().take(i) {
            let far = (a[0] - b[0]).hypot(a[1] - b[1]);
            let apart = radii[i] + radii[j];
            assert!(far >= apart * (1.0 - ROUNDING), "{i} and {j} overlap");
        }
    }
    *radius
}

/// By how much a packing of these is larger than the published one, as a part.
fn off(radii: &[f64], published: f64, tries: usize) -> f64 {
    sound(radii, &pack(radii, tries)) / published - 1.0
}

/// Best known packings of 1 to 50 equal circles, read.
#[test]
fn equal_circles_reach_the_best_known_within_a_thousandth() {
    let table = reference!("workmanship/bundle_equal_circles.toml");
    let cases = table.rows("pack");
    assert_eq!(cases.len(), 50);
    cases.par_iter().for_each(|case| {
        let n = case.num("n") as usize;
        let tries = match n {
            0..=25 => 300,
            26..=40 => 1500,
            _ => 3000,
        };
        let off = off(&vec![1.0; n], case.num("ratio"), tries);
        assert!((-ROUNDING..1e-3).contains(&off), "{n}: {off}");
    });
}

/// Radii 1 to n, read: the published packings of 5 to 17 are reached within a thousandth.
#[test]
fn radii_from_1_to_n_reach_the_best_known_within_a_thousandth() {
    let table = reference!("workmanship/bundle_unequal_circles.toml");
    let cases = table.rows("radii_1_to_n");
    assert_eq!(cases.len(), 13);
    cases.par_iter().for_each(|case| {
        let n = case.num("n") as usize;
        let radii: Vec<f64> = (1..=n).map(|r| r as f64).collect();
        let tries = match n {
            0..=12 => 4000,
            13..=15 => 20_000,
            16 => 60_000,
            _ => 30_000,
        };
        let off = off(&radii, case.num("container_r"), tries);
        assert!((-ROUNDING..1e-3).contains(&off), "{n}: {off}");
    });
}

/// Few circles whose answer can be worked out by hand.
#[test]
fn a_few_circles_are_packed_exactly() {
    let table = reference!("workmanship/bundle_unequal_circles.toml");
    let cases = table.rows("exact");
    assert!(cases.len() >= 6);
    for case in cases {
        let radii = case.nums("radii");
        let off = off(&radii, case.num("container_r"), 200);
        assert!((-1e-6..1e-4).contains(&off), "{radii:?}: {off}");
    }
}
