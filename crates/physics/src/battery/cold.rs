//! What the cold leaves of a lead battery.
//!
//! Straight lines between published rows.
//!
//! | function | at | unit |
//! |---|---|---|
//! | [`capacity_factor`] | 25 °C 1, 0 °C 0.75, −17.8 °C 0.40 | 1 |
//! | [`cranking_factor`] | 26.7 °C 1, 0 °C 0.65, −17.8 °C 0.40, −28.8 °C 0.20 | 1 |
//! | [`freezing_kelvin`] | flat −9.4 °C, half charged −26.1 °C, full −59.5 °C | K |
//!
//! Range: lead. Capacity and cranking are held at 1 above their first row; below their last they go on
//! down their line, but not below a tenth, which is our own, no source: there an answer is no longer
//! known and must not vanish. Capacity is what can be drawn, cranking the current that can be had: at
//! 0 °C they differ, and both are right. Source: reference `protection/43` (two army manuals, read)
//! and `41` (freezing, read).

use crate::conductor::T0;
use crate::table;

const CAPACITY: [(f64, f64); 3] = [(T0 - 17.8, 0.40), (T0, 0.75), (T0 + 25.0, 1.0)];

const CRANKING: [(f64, f64); 4] = [
    (T0 - 28.8, 0.20),
    (T0 - 17.8, 0.40),
    (T0, 0.65),
    (T0 + 26.7, 1.0),
];

/// By charge.
const FREEZING: [(f64, f64); 5] = [
    (0.0, T0 - 9.4),
    (0.25, T0 - 15.0),
    (0.5, T0 - 26.1),
    (0.75, T0 - 37.2),
    (1.0, T0 - 59.5),
];

/// What is left below the rows, where nothing is known.
const LEAST: f64 = 0.1;

/// Part of its capacity that a battery gives at `kelvin`.
pub fn capacity_factor(kelvin: f64) -> f64 {
    table::down(&CAPACITY, kelvin).max(LEAST)
}

/// Part of its cranking current at 26.7 °C that a battery gives at `kelvin`.
pub fn cranking_factor(kelvin: f64) -> f64 {
    table::down(&CRANKING, kelvin).max(LEAST)
}

/// Where the acid of a battery at `charge` (0 to 1) begins to freeze, K.
pub fn freezing_kelvin(charge: f64) -> f64 {
    table::held(&FREEZING, charge)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn halfway_between_rows() {
        assert!((capacity_factor(T0 + 12.5) - 0.875).abs() < 1e-12);
        assert!((cranking_factor(T0 - 23.3) - 0.30).abs() < 1e-12);
        assert!((freezing_kelvin(0.125) - (T0 - 12.2)).abs() < 1e-9);
    }

    #[test]
    fn held_in_the_heat_and_a_tenth_in_the_deepest_cold() {
        assert_eq!((capacity_factor(330.0), cranking_factor(330.0)), (1.0, 1.0));
        // On down its line first: 0.35 for 17.8 K.
        assert!((capacity_factor(T0 - 27.8) - (0.40 - 0.35 / 1.78)).abs() < 1e-9);
        assert_eq!((capacity_factor(220.0), cranking_factor(220.0)), (0.1, 0.1));
    }

    #[test]
    fn freezing_is_held_beyond_flat_and_full() {
        assert_eq!(freezing_kelvin(-1.0), T0 - 9.4);
        assert_eq!(freezing_kelvin(2.0), T0 - 59.5);
    }
}
