//! What a battery's label says in other words.
//!
//! `Ah = 25 A · RC / 60`; load test at half the cranking rating, rounded down to 10 A.
//!
//! | symbol | meaning | unit |
//! |---|---|---|
//! | RC | reserve: minutes at 25 A and 27 °C down to 10.5 V | min |
//! | CCA | cranking rating | A |
//!
//! Range: 12 V blocks of lead. The reserve's ampere-hours are those at 25 A: fewer than the label's at
//! the 20-hour rate. Other rules are in use (0.4 RC, 0.6 RC, RC/2 + 16): they mean other rates. Source:
//! reference `protection/40` (definition of RC and load-test table, read).

/// The current that a reserve is taken at, A.
const RESERVE_AMPS: f64 = 25.0;
/// Load testers are set in steps of this, A.
const TEST_STEP_AMPS: f64 = 10.0;

/// Ampere-hours drawn at 25 A, from the reserve in minutes.
pub fn amp_hours_of_reserve(minutes: f64) -> f64 {
    RESERVE_AMPS * minutes / 60.0
}

/// Current of a load test, A, from the cranking rating.
pub fn load_test_amps(cca: f64) -> f64 {
    (cca / 2.0 / TEST_STEP_AMPS).floor() * TEST_STEP_AMPS
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn ninety_minutes_are_37_and_a_half_ampere_hours() {
        assert_eq!(amp_hours_of_reserve(90.0), 37.5);
    }

    #[test]
    fn half_of_cranking_rounded_down() {
        assert_eq!(load_test_amps(600.0), 300.0);
        assert_eq!(load_test_amps(770.0), 380.0);
    }
}
