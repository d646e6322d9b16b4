//! How long insulation bears a temperature: a clock like a fuse's, `∫ dt / t(T) = 1`.
//!
//! Up to its class temperature it lasts. Above, `ln t` falls on straight lines of temperature from row
//! to row; past the last it is harmed at once.
//!
//! | symbol | meaning | unit |
//! |---|---|---|
//! | T | temperature of the copper, which the insulation's inside has | K |
//! | t | how long it is borne | s |
//!
//! Range: ageing tests are passed, not failed, at these points: what is harmed by them is not said, so the
//! law is cautious. Source: the shape is our own, no source; its points are the tests' and are handed in.

/// Rows of (kelvin, seconds borne), by rising temperature; the first is the class temperature.
#[derive(Clone, Debug, PartialEq)]
pub struct Bears(Vec<(f64, f64)>);

/// What insulation of any kind is tested to bear.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Tested {
    /// At its class temperature, s.
    pub at_class_s: f64,
    /// So much above it (K), for so long (s), by rising temperature.
    pub above: [(f64, f64); 2],
    /// At its damage temperature, s.
    pub short_s: f64,
}

impl Bears {
    /// For an insulation of this class temperature that a short circuit may take to `damage_k`.
    pub fn new(class_k: f64, damage_k: f64, tested: &Tested) -> Self {
        let mut rows = vec![(class_k, tested.at_class_s)];
        rows.extend(
            tested
                .above
                .map(|(above, seconds)| (class_k + above, seconds)),
        );
        // A damage limit below an ageing test's temperature is the stricter word.
        rows.retain(|row| row.0 < damage_k);
        rows.push((damage_k, tested.short_s));
        Self(rows)
    }

    /// The temperature that is borne for ever, K.
    pub fn class_k(&self) -> f64 {
        self.0[0].0
    }

    /// The temperature that harms at once, K.
    pub fn damage_k(&self) -> f64 {
        self.0[self.0.len() - 1].0
    }

    /// How long a temperature is borne, s: infinite up to the class temperature, nothing past the damage limit.
    pub fn seconds(&self, kelvin: f64) -> f64 {
        if kelvin <= self.class_k() {
            return f64::INFINITY;
        }
        if kelvin > self.damage_k() {
            return 0.0;
        }
        let above = self.0.partition_point(|row| row.0 < kelvin).max(1);
        let (low, high) = (self.0[above - 1], self.0[above]);
        let part = (kelvin - low.0) / (high.0 - low.0);
        low.1 * (high.1 / low.1).powf(part)
    }

    /// The part of its life that a step of `seconds` from one temperature to another takes. Within the step
    /// the warmer end counts for the time that the logarithm gives it.
    pub fn used(&self, from_k: f64, to_k: f64, seconds: f64) -> f64 {
        let rate = |kelvin: f64| 1.0 / self.seconds(kelvin);
        let (a, b) = (rate(from_k), rate(to_k));
        let mean =
            if a > 0.0 && b > 0.0 && a.is_finite() && b.is_finite() && (a / b - 1.0).abs() > 1e-9 {
                (b - a) / (b / a).ln()
            } else {
                0.5 * (a + b)
            };
        mean * seconds
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// ISO 6722-1 and IEC 60364-4-43, from memory.
    const TESTED: Tested = Tested {
        at_class_s: 3000.0 * 3600.0,
        above: [(25.0, 240.0 * 3600.0), (50.0, 6.0 * 3600.0)],
        short_s: 5.0,
    };

    fn pvc() -> Bears {
        Bears::new(378.15, 433.15, &TESTED)
    }

    #[test]
    fn the_rows_are_themselves() {
        let b = Bears::new(398.15, 523.15, &TESTED);
        assert_eq!(b.seconds(398.15), f64::INFINITY);
        assert!((b.seconds(423.15) / 3600.0 - 240.0).abs() < 1e-6);
        assert!((b.seconds(448.15) / 3600.0 - 6.0).abs() < 1e-9);
        assert!((b.seconds(523.15) - 5.0).abs() < 1e-9);
        assert_eq!(b.seconds(523.2), 0.0);
    }

    #[test]
    fn warmer_is_never_borne_longer() {
        let b = pvc();
        let mut last = f64::INFINITY;
        for step in 0..700 {
            let borne = b.seconds(370.0 + f64::from(step) * 0.1);
            assert!(borne <= last);
            last = borne;
        }
    }

    #[test]
    fn a_steady_temperature_uses_its_life_up_in_its_own_time() {
        let used = pvc().used(428.15, 428.15, 6.0 * 3600.0);
        assert!((used - 1.0).abs() < 1e-9, "{used}");
        assert_eq!(pvc().used(370.0, 378.15, 1e9), 0.0);
    }

    #[test]
    fn a_step_in_many_parts_uses_what_it_does_in_one() {
        let b = Bears::new(398.15, 523.15, &TESTED);
        let whole = b.used(450.0, 500.0, 10.0);
        let at = |i: u32| 450.0 + f64::from(i) * 0.5;
        let parts: f64 = (0..100).map(|i| b.used(at(i), at(i + 1), 0.1)).sum();
        assert!((whole / parts - 1.0).abs() < 1e-6, "{whole} {parts}");
    }
}
