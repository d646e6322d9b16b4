//! How much an alternator can deliver.
//!
//! `I = rating(speed) · hot factor(speed)`.
//!
//! | symbol | meaning | unit |
//! |---|---|---|
//! | rating | cold current at driving speed, at idle | A |
//! | hot factor | 0.82 at driving speed, 0.67 at idle | 1 |
//!
//! Range: the two speeds a plan states; a speed curve comes later. Source: reference
//! `protection/45`: a marine alternator's test page (read) delivers 41 of 50 A hot at mid speed and
//! 16 of 24 A hot near idle.

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
