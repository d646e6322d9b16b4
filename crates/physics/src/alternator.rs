//! How much an alternator can deliver.
//!
//! `I = rating(speed) · hot factor(speed)` where only two speeds are known; else `I = I_rated ·
//! curve(n)`, `n = ratio · engine speed`. Regulated to `U = U₂₀ − 0.1 V / 10 K · b (T − 20 °C)`.
//!
//! | symbol | meaning | unit |
//! |---|---|---|
//! | rating | cold current at driving speed, at idle | A |
//! | hot factor | 0.82 at driving speed, 0.67 at idle | 1 |
//! | n | alternator speed | rpm |
//! | U₂₀, b | set-point at 20 °C, 12 V blocks in series | V, 1 |
//!
//! Range: 14 and 28 V machines with a plain regulator; a curve is held above its last speed. A machine
//! that starts to deliver lower, or is of another size, has a curve of its own: this one is a shape
//! for want of it. Source: reference `protection/45`, a marine alternator's test page (read): 50 A,
//! 41 A hot at mid speed, 16 A hot of 24 A near idle, 14.4 V at 20 °C less 0.1 V for 10 K.

use crate::conductor::T20;
use crate::table::{self, Rows};

/// How fast the engine turns.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Speed {
    /// At idle.
    Idling,
    /// At driving speed.
    Driving,
}

/// An alternator as its plate states it.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Alternator {
    /// Cold current at driving speed, A.
    pub rated_amps: f64,
    /// Cold current at idle, A.
    pub idling_amps: f64,
}

/// Output by alternator speed, as part of the rated current.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Curve {
    /// (rpm, part), nothing at the first and below it.
    rows: &'static Rows,
}

/// Below this an alternator delivers nothing, rpm: from memory; makers' curves cut in at 900 to 1200.
const CUT_IN_RPM: f64 = 1000.0;
/// What a set-point falls by for each kelvin, V for each 12 V block.
const VOLTS_PER_KELVIN: f64 = 0.1 / 10.0;

impl Curve {
    /// After long at work: the read machine's hot currents.
    pub const HOT: Self = Self {
        rows: &[
            (CUT_IN_RPM, 0.0),
            (1300.0, 16.0 / 50.0),
            (2500.0, 41.0 / 50.0),
            (5000.0, 48.0 / 50.0),
        ],
    };
    /// In its first minutes: the read machine's cold currents.
    pub const COLD: Self = Self {
        rows: &[(CUT_IN_RPM, 0.0), (1300.0, 24.0 / 50.0), (2500.0, 1.0)],
    };

    /// Part of the rated current at an alternator speed, rpm.
    pub fn part(&self, rpm: f64) -> f64 {
        table::held(self.rows, rpm)
    }
}

/// Alternator speed, rpm. `pulley_ratio` is crank pulley over alternator pulley, often 2 to 3.
pub fn alternator_rpm(engine_rpm: f64, pulley_ratio: f64) -> f64 {
    engine_rpm * pulley_ratio
}

/// Regulated voltage at `kelvin` of a set-point `at_20c` (both of the whole system, V) over `blocks`
/// 12 V blocks in series.
pub fn regulated_volts(at_20c: f64, kelvin: f64, blocks: f64) -> f64 {
    at_20c - VOLTS_PER_KELVIN * blocks * (kelvin - T20)
}

/// What heat leaves of the cold current.
pub fn hot_factor(speed: Speed) -> f64 {
    match speed {
        Speed::Idling => 16.0 / 24.0,
        Speed::Driving => 41.0 / 50.0,
    }
}

/// The most it delivers, A.
pub fn limit_amps(alternator: &Alternator, speed: Speed, hot: bool) -> f64 {
    let cold = match speed {
        Speed::Idling => alternator.idling_amps,
        Speed::Driving => alternator.rated_amps,
    };
    if hot { cold * hot_factor(speed) } else { cold }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn nothing_below_cut_in_straight_between_and_held_beyond() {
        for curve in [Curve::HOT, Curve::COLD] {
            assert_eq!((curve.part(0.0), curve.part(1000.0)), (0.0, 0.0));
        }
        assert!((Curve::HOT.part(1150.0) - 0.16).abs() < 1e-12);
        assert!((Curve::HOT.part(1900.0) - 0.57).abs() < 1e-12);
        assert_eq!(Curve::HOT.part(12_000.0), 0.96);
        assert_eq!(Curve::COLD.part(12_000.0), 1.0);
    }

    #[test]
    fn faster_is_never_less_and_hot_never_more_than_cold() {
        let mut last = (0.0, 0.0);
        for step in 0..800 {
            let rpm = f64::from(step) * 10.0;
            let next = (Curve::HOT.part(rpm), Curve::COLD.part(rpm));
            assert!(next.0 >= last.0 && next.1 >= last.1 && next.0 <= next.1);
            last = next;
        }
    }

    #[test]
    fn thirty_kelvin_warmer_is_300_millivolts_less_and_twice_that_at_24_volts() {
        assert!((regulated_volts(14.4, T20 + 30.0, 1.0) - 14.1).abs() < 1e-12);
        assert!((regulated_volts(28.8, T20 - 20.0, 2.0) - 29.2).abs() < 1e-12);
    }

    #[test]
    fn the_test_page_comes_back() {
        let machine = Alternator {
            rated_amps: 50.0,
            idling_amps: 24.0,
        };
        assert!((limit_amps(&machine, Speed::Idling, true) - 16.0).abs() < 1e-12);
        assert!((limit_amps(&machine, Speed::Driving, true) - 41.0).abs() < 1e-12);
        assert_eq!(limit_amps(&machine, Speed::Driving, false), 50.0);
    }
}
