//! How long a battery lasts at a current: Peukert's law.
//!
//! Rated-rate form `t = H (C / (I H))^k`, where C is the label's capacity at the H-hour rate.
//! Peukert-capacity form `t = Cp / I^k`, where Cp is the capacity at 1 A, **not the label's**; they
//! agree for `Cp = H (C / H)^k`.
//!
//! | symbol | meaning | unit |
//! |---|---|---|
//! | C, H | the label's capacity, and the hours in which it was drawn | Ah, h |
//! | I, t | current, time until flat | A, h |
//! | k | exponent: flooded 1.2 to 1.6, AGM 1.05 to 1.15, gel 1.1 to 1.25, lithium 1.01 to 1.05 | 1 |
//!
//! Ampere-hours and hours as the label has them: with an exponent the law is of no pure unit. Range:
//! from the rated current to about that which empties it in an hour, steady, at 25 °C. Source: W.
//! Peukert (1897); the forms and exponents of reference `protection/42` (second form and two-test
//! method read, first form and lithium from memory). A published example puts the label into the
//! second form and gets 14.5 h for 20 h.

/// Hours until flat, from the label: `capacity_ah` at the `hours_of_rating` rate.
pub fn hours_rated(capacity_ah: f64, hours_of_rating: f64, exponent: f64, amps: f64) -> f64 {
    hours_of_rating * (capacity_ah / (amps * hours_of_rating)).powf(exponent)
}

/// Hours until flat, from the capacity at 1 A (see [`peukert_capacity`]).
pub fn hours_peukert_capacity(cp: f64, exponent: f64, amps: f64) -> f64 {
    cp / amps.powf(exponent)
}

/// The capacity at 1 A that belongs to a label.
pub fn peukert_capacity(capacity_ah: f64, hours_of_rating: f64, exponent: f64) -> f64 {
    hours_of_rating * (capacity_ah / hours_of_rating).powf(exponent)
}

/// The exponent of a battery that lasted `t1` at `i1` and `t2` at `i2`; any unit of time.
pub fn exponent_of_two_tests(i1: f64, t1: f64, i2: f64, t2: f64) -> f64 {
    (t2 / t1).ln() / (i1 / i2).ln()
}

/// Part of the full charge used in an hour at `amps`. Below the rated current it is plain `I / C`: a
/// battery is not credited with more than its label (common practice).
pub fn rate(capacity_ah: f64, hours_of_rating: f64, exponent: f64, amps: f64) -> f64 {
    if amps <= capacity_ah / hours_of_rating {
        return amps.max(0.0) / capacity_ah;
    }
    1.0 / hours_rated(capacity_ah, hours_of_rating, exponent, amps)
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    #[test]
    fn the_rated_current_lasts_the_rated_hours() {
        assert!((hours_rated(100.0, 20.0, 1.3, 5.0) - 20.0).abs() < 1e-12);
    }

    #[test]
    fn twice_the_rated_current_lasts_8_71_hours() {
        assert!((hours_rated(100.0, 20.0, 1.2, 10.0) - 8.706).abs() < 1e-3);
    }

    #[test]
    fn the_label_put_in_as_the_capacity_at_one_ampere_gives_14_and_a_half_hours_for_20() {
        assert!((hours_peukert_capacity(100.0, 1.2, 5.0) - 14.5).abs() < 0.01);
        let cp = peukert_capacity(100.0, 20.0, 1.2);
        assert!((hours_peukert_capacity(cp, 1.2, 5.0) - 20.0).abs() < 1e-9);
        assert!((hours_peukert_capacity(cp, 1.2, 1.0) - cp).abs() < 1e-12);
    }

    #[test]
    fn two_tests_give_the_exponent_back() {
        let k = exponent_of_two_tests(25.0, 100.0 / 60.0, 3.5, 20.0);
        assert!((k - 1.264).abs() < 5e-4);
        let last = |amps| hours_rated(70.0, 20.0, 1.17, amps);
        let k = exponent_of_two_tests(30.0, last(30.0), 4.0, last(4.0));
        assert!((k - 1.17).abs() < 1e-12);
    }

    #[test]
    fn below_the_rated_current_no_more_than_the_label() {
        assert_eq!(rate(100.0, 20.0, 1.3, 1.0), 0.01);
        assert_eq!(rate(100.0, 20.0, 1.3, 0.0), 0.0);
        assert!((rate(100.0, 20.0, 1.3, 5.0 + 1e-9) - 0.05).abs() < 1e-9);
        assert!((rate(100.0, 20.0, 1.2, 10.0) - 1.0 / 8.706).abs() < 1e-4);
    }

    fn fixed() -> ProptestConfig {
        ProptestConfig {
            cases: 128,
            failure_persistence: None,
            rng_seed: proptest::test_runner::RngSeed::Fixed(42),
            ..ProptestConfig::default()
        }
    }

    proptest! {
        #![proptest_config(fixed())]
        #[test]
        fn both_forms_agree(
            capacity in 5.0..400.0_f64, hours in 1.0..100.0_f64, k in 1.0..1.6_f64, amps in 0.1..300.0_f64,
        ) {
            let one = hours_rated(capacity, hours, k, amps);
            let other = hours_peukert_capacity(peukert_capacity(capacity, hours, k), k, amps);
            prop_assert!((one / other - 1.0).abs() < 1e-9);
        }

        #[test]
        fn more_current_is_never_slower_and_never_less_than_the_label(
            capacity in 5.0..400.0_f64, k in 1.0..1.6_f64, amps in 0.0..300.0_f64, more in 0.0..50.0_f64,
        ) {
            let used = rate(capacity, 20.0, k, amps);
            prop_assert!(rate(capacity, 20.0, k, amps + more) >= used);
            prop_assert!(used >= amps / capacity * (1.0 - 1e-12));
        }
    }
}
