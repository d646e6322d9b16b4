//! A wire size as asked for. A metric size and a gauge never turn into one another.

use crate::kinds::Quantity;
use crate::read::{Misread, read};
use crate::{Area, Gauge, in_mm2};
use std::fmt;

/// A wire size in the family it was written in.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum WireSize {
    /// A metric nominal cross-section.
    Metric(Area),
    /// A gauge number; whether SAE or AWG area is meant is the wire family's to say.
    Gauge(Gauge),
}

impl WireSize {
    /// Reads "2.5 mm²", "2.5 mm2", "12 AWG", "AWG 12", "2/0 AWG".
    pub fn read(text: &str) -> Result<Self, Misread> {
        let upper = text.trim().to_uppercase();
        let gauge = upper
            .strip_prefix("AWG")
            .or_else(|| upper.strip_suffix("AWG"))
            .or_else(|| upper.strip_suffix("GA"));
        if let Some(number) = gauge {
            return Gauge::read(number).map(Self::Gauge).ok_or_else(|| Misread {
                what: format!("“{}” is no wire gauge", text.trim()),
                mend: "gauges run from 40 to 1, then 1/0 to 4/0: write it like \"12 AWG\"".into(),
            });
        }
        read::<Area>(text).map(Self::Metric).map_err(|e| Misread {
            what: e.what,
            mend: "write a wire size like \"2.5 mm²\" or \"12 AWG\"".into(),
        })
    }
}

impl fmt::Display for WireSize {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Metric(a) => f.write_str(&a.show()),
            Self::Gauge(g) => write!(f, "{g} AWG"),
        }
    }
}

impl WireSize {
    /// Whether two sizes are the same; a gauge is never a metric size.
    pub fn is(self, other: Self) -> bool {
        match (self.metric_mm2(), other.metric_mm2()) {
            (Some(a), Some(b)) => (a - b).abs() < 1e-6,
            (None, None) => self == other,
            _ => false,
        }
    }

    /// The metric nominal in mm², if it is one.
    pub fn metric_mm2(self) -> Option<f64> {
        match self {
            Self::Metric(a) => Some(in_mm2(a)),
            Self::Gauge(_) => None,
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn families_stay_apart() {
        assert_eq!(
            WireSize::read("12 AWG").unwrap(),
            WireSize::Gauge(Gauge(12))
        );
        assert_eq!(
            WireSize::read("awg 2/0").unwrap(),
            WireSize::Gauge(Gauge(-1))
        );
        assert_eq!(
            WireSize::read("2.5 mm2")
                .unwrap()
                .metric_mm2()
                .map(|v| (v * 1e9).round()),
            Some(2.5e9)
        );
        assert!(WireSize::read("12").unwrap_err().mend.contains("AWG"));
        assert!(WireSize::read("99 AWG").is_err());
    }
}
