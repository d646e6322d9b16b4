//! The verdict on a reading, and on the installation.

use super::bench::{Bench, Suspect};
use super::probe::Probe;
use super::weigh::Measured;

/// What a sound installation reads.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Band {
    /// Expected, in the unit of the probe.
    pub expected: f64,
    /// From here.
    pub low: f64,
    /// To here.
    pub high: f64,
}

impl Band {
    /// The verdict on what was read.
    pub fn verdict(&self, read: f64) -> Verdict {
        match read {
            r if r < self.low => Verdict::Low,
            r if r > self.high => Verdict::High,
            _ => Verdict::Sound,
        }
    }
}

/// The verdict on a reading.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Verdict {
    /// As a sound installation reads.
    Sound,
    /// Less than that.
    Low,
    /// More than that.
    High,
}

impl Verdict {
    /// In a word.
    pub fn word(self) -> &'static str {
        match self {
            Self::Sound => "sound",
            Self::Low => "too low",
            Self::High => "too high",
        }
    }
}

/// The verdict on the installation.
#[derive(Clone, Debug, PartialEq)]
pub enum Proof {
    /// Every test of the sheet was made, and each is sound.
    Proved,
    /// Some tests are still to be made; none made is out.
    NotYet(Vec<usize>),
    /// Every test was made; these are out.
    Except(Vec<usize>),
    /// Some are to be made, and some made are out.
    NotProved {
        /// Out.
        out: Vec<usize>,
        /// To be made.
        missing: Vec<usize>,
    },
}

impl Proof {
    /// In words: proved, not proved, proved except.
    pub fn word(&self) -> &'static str {
        match self {
            Self::Proved => "proved",
            Self::NotYet(_) => "not proved yet",
            Self::Except(_) => "proved, except for what is out",
            Self::NotProved { .. } => "not proved",
        }
    }
}

impl Bench<'_> {
    /// What a sound installation reads at a probing.
    pub fn band(&self, test: usize) -> Band {
        let reads = self.reads(Suspect::Nothing, test);
        let probe = self.tests[test].probe;
        let within = self.d.limits.value("sound within");
        let wide = within * reads.sd();
        // What resists takes nothing less than nothing, but for the meter.
        let least = match (probe, reads.value >= 0.0) {
            (Probe::Volts(..) | Probe::Amps(_) | Probe::Drain, true) => -within * reads.meter,
            _ => f64::NEG_INFINITY,
        };
        let low = (reads.value - wide).max(least);
        let [expected, low, high] =
            [reads.value, low, reads.value + wide].map(|v| probe.unscale(&self.d.limits, v));
        Band {
            expected,
            low,
            high,
        }
    }

    /// The verdict on the installation, of the tests of a sheet and the last reading of each that was made.
    pub fn proof(&self, sheet: &[usize], readings: &[Measured]) -> Proof {
        let last = |test: usize| readings.iter().rev().find(|m| m.test == test);
        let missing: Vec<usize> = sheet
            .iter()
            .copied()
            .filter(|t| last(*t).is_none())
            .collect();
        let mut made: Vec<usize> = readings.iter().map(|m| m.test).collect();
        made.sort_unstable();
        made.dedup();
        let is_out =
            |t: &usize| last(*t).is_some_and(|m| self.band(*t).verdict(m.value) != Verdict::Sound);
        let out: Vec<usize> = made.into_iter().filter(is_out).collect();
        match (out.is_empty(), missing.is_empty()) {
            (true, true) => Proof::Proved,
            (true, false) => Proof::NotYet(missing),
            (false, true) => Proof::Except(out),
            (false, false) => Proof::NotProved { out, missing },
        }
    }
}
