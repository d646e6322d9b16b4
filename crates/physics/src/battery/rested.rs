//! Rested voltage and charge of a battery.
//!
//! `Uoc = n · table(charge)`, and back.
//!
//! | symbol | meaning | unit |
//! |---|---|---|
//! | Uoc | voltage after at least 3 hours of rest | V |
//! | n | 12 V blocks in series | 1 |
//!
//! With temperature: lead 0.2 mV/K a cell, lithium none, from memory.
//!
//! Range: 0 ≤ charge ≤ 1, tables at 25 °C. Source: reference `protection/41`. Published tables differ by 0.2 V
//! and more at half charge, by up to half a volt at either end, and 10 % of charge is worth some 80 mV of
//! lead and half of that of lithium: charge from voltage is a guess, for lithium between 30 and 90 % not
//! even that.

use super::Chemistry;
use crate::table::{self, Rows};

/// Common handbook table, from memory: lies between the two tables read.
const FLOODED: [(f64, f64); 5] = [
    (0.0, 11.89),
    (0.25, 12.06),
    (0.5, 12.24),
    (0.75, 12.45),
    (1.0, 12.65),
];
/// Read, but for the row at 0, which goes on down its straight line.
const AGM: [(f64, f64); 7] = [
    (0.0, 11.85),
    (0.15, 12.0),
    (0.45, 12.3),
    (0.75, 12.6),
    (0.85, 12.7),
    (0.95, 12.95),
    (1.0, 13.2),
];
/// From memory.
const GEL: [(f64, f64); 5] = [
    (0.0, 11.8),
    (0.25, 12.0),
    (0.5, 12.35),
    (0.75, 12.65),
    (1.0, 12.85),
];
/// Typical rested values, from memory.
const LITHIUM_IRON: [(f64, f64); 8] = [
    (0.0, 10.0),
    (0.1, 12.7),
    (0.2, 12.9),
    (0.4, 13.05),
    (0.5, 13.1),
    (0.7, 13.2),
    (0.9, 13.3),
    (1.0, 13.4),
];

/// Rise of a lead cell's rested voltage with temperature, V/K. From memory.
const LEAD_CELL_VOLTS_PER_K: f64 = 0.0002;
/// What the tables are taken at, K.
const TABLES_K: f64 = 298.15;

fn rows(chemistry: Chemistry) -> &'static Rows {
    match chemistry {
        Chemistry::Flooded => &FLOODED,
        Chemistry::Agm => &AGM,
        Chemistry::Gel => &GEL,
        Chemistry::LithiumIron => &LITHIUM_IRON,
    }
}

/// Rested voltage of a battery of nominal `system_volts` (12 or 24) at `charge` from 0 to 1.
pub fn open_circuit_volts(chemistry: Chemistry, charge: f64, system_volts: f64) -> f64 {
    table::held(rows(chemistry), charge) * system_volts / 12.0
}

/// What a temperature adds to the rested voltage, V.
pub fn rested_shift_volts(chemistry: Chemistry, system_volts: f64, kelvin: f64) -> f64 {
    let per_cell = match chemistry {
        Chemistry::LithiumIron => 0.0,
        _ => LEAD_CELL_VOLTS_PER_K,
    };
    per_cell * system_volts / 2.0 * (kelvin - TABLES_K)
}

/// Charge from 0 to 1 of a battery of nominal `system_volts` that rests at `volts`.
pub fn charge_of_volts(chemistry: Chemistry, volts: f64, system_volts: f64) -> f64 {
    let block = volts * 12.0 / system_volts;
    let turned: Vec<(f64, f64)> = rows(chemistry).iter().map(|row| (row.1, row.0)).collect();
    table::held(&turned, block)
}

#[cfg(test)]
mod tests {
    use super::*;

    const ALL: [Chemistry; 4] = [
        Chemistry::Flooded,
        Chemistry::Agm,
        Chemistry::Gel,
        Chemistry::LithiumIron,
    ];

    #[test]
    fn a_cold_lead_battery_rests_a_little_lower() {
        let shift = rested_shift_volts(Chemistry::Flooded, 12.0, 255.15);
        assert!((shift + 0.0516).abs() < 1e-9);
        assert_eq!(rested_shift_volts(Chemistry::Agm, 24.0, 298.15), 0.0);
        assert_eq!(
            rested_shift_volts(Chemistry::LithiumIron, 12.0, 255.15),
            0.0
        );
    }

    #[test]
    fn rows_are_themselves_and_24_volts_doubles() {
        assert!((open_circuit_volts(Chemistry::Flooded, 0.75, 12.0) - 12.45).abs() < 1e-12);
        assert!((open_circuit_volts(Chemistry::Agm, 1.0, 24.0) - 26.4).abs() < 1e-12);
        assert!((open_circuit_volts(Chemistry::LithiumIron, 0.0, 12.0) - 10.0).abs() < 1e-12);
    }

    #[test]
    fn more_charge_is_always_more_volts_and_back() {
        for chemistry in ALL {
            let mut last = 0.0;
            for step in 0..=100 {
                let charge = f64::from(step) / 100.0;
                let volts = open_circuit_volts(chemistry, charge, 24.0);
                assert!(volts > last);
                assert!((charge_of_volts(chemistry, volts, 24.0) - charge).abs() < 1e-9);
                last = volts;
            }
        }
    }

    #[test]
    fn beyond_full_and_flat_is_full_and_flat() {
        for chemistry in ALL {
            assert_eq!(charge_of_volts(chemistry, 14.4, 12.0), 1.0);
            assert_eq!(charge_of_volts(chemistry, 3.0, 12.0), 0.0);
        }
    }
}
