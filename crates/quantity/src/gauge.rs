//! The American wire gauge. Geometry only: which conductors are sold under a gauge is stock's.

use std::fmt;

/// A gauge number: 18, 12, …, 1, and 0, −1, −2, −3 for 1/0, 2/0, 3/0, 4/0.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Gauge(pub i8);

impl Gauge {
    /// Diameter of the solid wire in mm: d = 0.127 · 92^((36−n)/39).
    /// Source: ASTM B258 (rule from memory; reference/conductors/01).
    pub fn diameter_mm(self) -> f64 {
        0.127 * 92f64.powf((36.0 - f64::from(self.0)) / 39.0)
    }

    /// Area of the solid wire in mm².
    pub fn area_mm2(self) -> f64 {
        std::f64::consts::FRAC_PI_4 * self.diameter_mm().powi(2)
    }

    /// Area of the solid wire in circular mils: the square of the diameter in thousandths of an inch.
    pub fn circular_mils(self) -> f64 {
        (self.diameter_mm() / 0.0254).powi(2)
    }

    /// Reads "12", "2/0", "0000"; the word AWG is not part of it.
    pub fn read(text: &str) -> Option<Self> {
        let text = text.trim();
        let n: i8 = match text {
            "0" | "1/0" => 0,
            "00" | "2/0" => -1,
            "000" | "3/0" => -2,
            "0000" | "4/0" => -3,
            _ => text.parse().ok().filter(|n| (1..=40).contains(n))?,
        };
        Some(Self(n))
    }
}

impl fmt::Display for Gauge {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        if self.0 > 0 {
            write!(f, "{}", self.0)
        } else {
            write!(f, "{}/0", 1 - self.0)
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn names_round_trip() {
        for n in -3..=24 {
            let g = Gauge(n);
            assert_eq!(Gauge::read(&g.to_string()), Some(g));
        }
        assert_eq!(Gauge::read("41"), None);
        assert_eq!(Gauge::read("-1"), None);
    }
}
