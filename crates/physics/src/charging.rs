//! How fast a battery takes charge back, what of it stays, and what it loses by itself.
//!
//! `I = c · C` up to a knee, from there in a straight line down to `0.01 C` when full.
//!
//! | | c | knee | charge that stays | lost by itself in 30 days |
//! |---|---|---|---|---|
//! | flooded | 0.25 /h | 80 % | 0.85 | 5 % |
//! | AGM | 0.35 /h | 80 % | 0.85 | 3 % |
//! | gel | 0.2 /h | 80 % | 0.85 | 3 % |
//! | lithium iron phosphate | 0.5 /h | 95 % | 0.95 | 3 % |
//!
//! C is the label's capacity in Ah. Range: at the charge voltage of its kind and about 25 °C; what a
//! supply can give is another limit. Source: acceptance and efficiency from memory, no document;
//! self-discharge from reference `protection/43`, from memory, the upper figures, gel as AGM.

use crate::battery::Chemistry;
use crate::table;

/// What a full battery still takes, as part of its capacity, 1/h.
const FULL_RATE: f64 = 0.01;
/// Days that the published self-discharge stands for.
const MONTH_DAYS: f64 = 30.0;

/// The most current that a battery takes at `charge` from 0 to 1, A.
pub fn acceptance_amps(chemistry: Chemistry, capacity_ah: f64, charge: f64) -> f64 {
    let (rate, knee) = match chemistry {
        Chemistry::Flooded => (0.25, 0.8),
        Chemistry::Agm => (0.35, 0.8),
        Chemistry::Gel => (0.2, 0.8),
        Chemistry::LithiumIron => (0.5, 0.95),
    };
    capacity_ah * table::held(&[(knee, rate), (1.0, FULL_RATE)], charge)
}

/// Part of the ampere-hours put in that can be drawn again.
pub fn charge_efficiency(chemistry: Chemistry) -> f64 {
    match chemistry {
        Chemistry::LithiumIron => 0.95,
        Chemistry::Flooded | Chemistry::Agm | Chemistry::Gel => 0.85,
    }
}

/// Part of the full charge that an unconnected battery loses in a day.
pub fn self_discharge_per_day(chemistry: Chemistry) -> f64 {
    let a_month = match chemistry {
        Chemistry::Flooded => 0.05,
        Chemistry::Agm | Chemistry::Gel | Chemistry::LithiumIron => 0.03,
    };
    a_month / MONTH_DAYS
}

#[cfg(test)]
mod tests {
    use super::Chemistry::{Agm, Flooded, Gel, LithiumIron};
    use super::*;

    #[test]
    fn a_quarter_of_its_capacity_until_four_fifths_full() {
        assert!((acceptance_amps(Flooded, 100.0, 0.3) - 25.0).abs() < 1e-12);
        assert!((acceptance_amps(Agm, 100.0, 0.8) - 35.0).abs() < 1e-12);
        assert!((acceptance_amps(Gel, 100.0, 0.9) - 10.5).abs() < 1e-9);
        assert!((acceptance_amps(LithiumIron, 100.0, 0.95) - 50.0).abs() < 1e-12);
    }

    #[test]
    fn fuller_takes_less_and_full_takes_a_hundredth() {
        for chemistry in [Flooded, Agm, Gel, LithiumIron] {
            let mut last = f64::INFINITY;
            for step in 0..=100 {
                let amps = acceptance_amps(chemistry, 80.0, f64::from(step) / 100.0);
                assert!(amps <= last);
                last = amps;
            }
            assert!((last - 0.8).abs() < 1e-12);
            assert_eq!(acceptance_amps(chemistry, 80.0, 1.5), last);
        }
    }

    #[test]
    fn five_per_cent_a_month_is_a_sixth_of_a_per_cent_a_day() {
        assert!((self_discharge_per_day(Flooded) - 0.05 / 30.0).abs() < 1e-15);
        assert!(self_discharge_per_day(Gel) < self_discharge_per_day(Flooded));
    }
}
