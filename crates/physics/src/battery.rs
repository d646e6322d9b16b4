//! A battery at rest and at its terminals.
//!
//! `R = (Uoc − 7.2 n) / CCA` at −18 °C, half of that at 25 °C; `Isc = Uoc / R`.
//!
//! | symbol | meaning | unit |
//! |---|---|---|
//! | Uoc | rested voltage, from charge and kind | V |
//! | CCA | cranking rating: held 30 s at −18 °C down to 7.2 V | A |
//! | n | 12 V blocks in series | 1 |
//!
//! Range: 0 ≤ charge ≤ 1, −18 °C to 25 °C and held beyond. Sources: reference `protection/40`
//! (definition of CCA, read; "half when warm" common practice) and `protection/41` (rested
//! voltages; published tables differ by up to 0.2 V, so charge from voltage is a guess).

/// How a battery is made.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Chemistry {
    /// Lead plates in free acid.
    Flooded,
    /// Lead plates, acid in glass mat.
    Agm,
    /// Lead plates, acid as gel.
    Gel,
    /// Lithium iron phosphate, four cells to a 12 V block.
    LithiumIron,
}

/// What a cranking rating is read down to, V for each 12 V block.
const CRANKED_VOLTS: f64 = 7.2;
/// −18 °C, where cranking ratings are taken, K.
const COLD_K: f64 = 255.15;
/// 25 °C, where resistance has about halved, K.
const WARM_K: f64 = 298.15;

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

/// Rested voltage of a battery of nominal `system_volts` (12 or 24) at `charge` from 0 to 1.
pub fn open_circuit_volts(chemistry: Chemistry, charge: f64, system_volts: f64) -> f64 {
    let table: &[(f64, f64)] = match chemistry {
        Chemistry::Flooded => &FLOODED,
        Chemistry::Agm => &AGM,
        Chemistry::Gel => &GEL,
        Chemistry::LithiumIron => &LITHIUM_IRON,
    };
    let charge = charge.clamp(0.0, 1.0);
    let above = table
        .partition_point(|row| row.0 < charge)
        .clamp(1, table.len() - 1);
    let (low, high) = (table[above - 1], table[above]);
    let block = low.1 + (charge - low.0) / (high.0 - low.0) * (high.1 - low.1);
    block * system_volts / 12.0
}

/// Internal resistance, Ω. The number of 12 V blocks is told from the open-circuit voltage.
pub fn internal_ohms(cranking_amps: f64, open_volts: f64, kelvin: f64) -> f64 {
    let blocks = (open_volts / 12.6).round().max(1.0);
    let cold = (open_volts - CRANKED_VOLTS * blocks) / cranking_amps;
    let warmth = ((kelvin - COLD_K) / (WARM_K - COLD_K)).clamp(0.0, 1.0);
    cold * (1.0 - 0.5 * warmth)
}

/// Current into a dead short at the posts, A.
pub fn short_circuit_amps(open_volts: f64, internal_ohms: f64) -> f64 {
    open_volts / internal_ohms
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn six_hundred_cranking_amps_is_nine_milliohm_cold_and_half_warm() {
        assert!((internal_ohms(600.0, 12.6, 255.15) - 0.009).abs() < 1e-12);
        assert!((internal_ohms(600.0, 12.6, 298.15) - 0.0045).abs() < 1e-12);
        let cold = short_circuit_amps(12.6, 0.009);
        assert!((cold - 1400.0).abs() < 1e-9);
    }

    #[test]
    fn two_blocks_in_series_have_twice_the_resistance() {
        let one = internal_ohms(600.0, 12.6, 280.0);
        assert!((internal_ohms(600.0, 25.2, 280.0) - 2.0 * one).abs() < 1e-12);
    }

    #[test]
    fn rows_are_themselves_and_24_volts_doubles() {
        assert!((open_circuit_volts(Chemistry::Flooded, 0.75, 12.0) - 12.45).abs() < 1e-12);
        assert!((open_circuit_volts(Chemistry::Agm, 1.0, 24.0) - 26.4).abs() < 1e-12);
        assert!((open_circuit_volts(Chemistry::LithiumIron, 0.0, 12.0) - 10.0).abs() < 1e-12);
    }

    #[test]
    fn more_charge_is_never_fewer_volts() {
        let all = [
            Chemistry::Flooded,
            Chemistry::Agm,
            Chemistry::Gel,
            Chemistry::LithiumIron,
        ];
        for chemistry in all {
            let mut last = 0.0;
            for step in 0..=100 {
                let volts = open_circuit_volts(chemistry, f64::from(step) / 100.0, 12.0);
                assert!(volts >= last);
                last = volts;
            }
        }
    }
}
