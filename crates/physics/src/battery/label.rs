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

use crate::conductor::T0;
use crate::table;

/// What a load test asks for, by temperature.
const LOAD_TEST: [(f64, f64); 8] = [
    (T0 - 17.8, 8.5),
    (T0 - 12.2, 8.7),
    (T0 - 6.7, 8.9),
    (T0 - 1.1, 9.1),
    (T0 + 4.4, 9.3),
    (T0 + 10.0, 9.4),
    (T0 + 15.6, 9.5),
    (T0 + 21.1, 9.6),
];
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

/// Least voltage of one 12 V block that a load test at `kelvin` asks for, V: a colder battery may fall lower.
/// From memory (makers' load-test tables: 9.6 V at 70 °F down to 8.5 V at 0 °F).
pub fn load_test_volts(kelvin: f64) -> f64 {
    table::held(&LOAD_TEST, kelvin)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_load_test_asks_for_less_in_the_cold() {
        assert_eq!(load_test_volts(T0 + 25.0), 9.6);
        assert_eq!(load_test_volts(T0 - 30.0), 8.5);
        assert!((load_test_volts(T0 - 1.1) - 9.1).abs() < 1e-9);
    }

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
