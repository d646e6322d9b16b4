//! The next test: the probing that is expected to tell most, per minute that it takes, of which cause it is.
//!
//! What a reading tells is the mutual information of reading and cause, in bits: how much less uncertain the cause is
//! expected to be when it is known (Lindley 1956, textbook). Integrals over readings by Gauss and Hermite.

use super::bench::{Bench, Suspect};
use super::weigh::{Evidence, Weighed};
use rayon::prelude::*;
use std::collections::{BTreeMap, BTreeSet};

/// A test that is advised.
#[derive(Clone, Debug, PartialEq)]
pub struct Advice {
    /// Which probing: index into the bench's tests.
    pub test: usize,
    /// What it is expected to tell of which cause it is, bit.
    pub bits: f64,
    /// How long it takes, with bringing the state about, min.
    pub minutes: f64,
    /// What outcomes would mean: from and to, in the unit of the probe, and the causes that such a reading speaks for with how
    /// likely each would then be.
    pub outcomes: Vec<Outcome>,
}

/// One kind of outcome.
#[derive(Clone, Debug, PartialEq)]
pub struct Outcome {
    /// From here; without end below.
    pub low: f64,
    /// To here; without end above.
    pub high: f64,
    /// How likely it is, 0 to 1.
    pub probability: f64,
    /// The causes that it speaks for, none where nothing is amiss.
    pub causes: Vec<Vec<usize>>,
}

/// So many of the likeliest suspects decide, and so much of what is likely.
const MOST: usize = 60;
const ENOUGH: f64 = 0.998;
/// A test that tells less is not worth a minute, bit: our own.
const LEAST_BITS: f64 = 0.02;
/// Gauss and Hermite, five points: abscissas in standard deviations and weights (Abramowitz and Stegun 25.10).
const POINTS: [(f64, f64); 5] = [
    (-2.856_970, 0.011_257_4),
    (-1.355_626, 0.222_075_9),
    (0.0, 0.533_333_3),
    (1.355_626, 0.222_075_9),
    (2.856_970, 0.011_257_4),
];

/// A suspect as a test sees it.
struct Seen {
    cause: usize,
    p: f64,
    mean: f64,
    sd: f64,
}

/// The best next test; none where nothing that can be measured tells more.
pub fn next(bench: &Bench, evidence: &Evidence, weighed: &Weighed) -> Option<Advice> {
    let (suspects, causes) = likely(weighed);
    let best = worths(bench, evidence, &suspects)
        .into_iter()
        .filter(|a| a.bits > LEAST_BITS)
        .max_by(|a, b| {
            (a.bits / a.minutes)
                .total_cmp(&(b.bits / b.minutes))
                .then(b.test.cmp(&a.test))
        })?;
    let seen = sight(bench, &suspects, best.test);
    let outcomes = outcomes(bench, &seen, &causes, best.test);
    Some(Advice { outcomes, ..best })
}

/// The most that any one probing is expected to tell, whatever it takes, bit.
#[cfg(test)]
pub(super) fn most_bits(bench: &Bench, evidence: &Evidence, weighed: &Weighed) -> f64 {
    let all = worths(bench, evidence, &likely(weighed).0);
    all.iter().map(|a| a.bits).fold(0.0, f64::max)
}

/// What each probing that was not made yet is expected to tell.
fn worths(bench: &Bench, evidence: &Evidence, suspects: &[Likely]) -> Vec<Advice> {
    let known: BTreeSet<usize> = evidence.readings.iter().map(|r| r.test).collect();
    let last = evidence.readings.last();
    let here = last.map_or(0, |r| bench.tests[r.test].setting);
    let settings = worth(bench, suspects);
    let tests: Vec<usize> = settings
        .iter()
        .flat_map(|s| bench.of_setting(*s))
        .filter(|t| !known.contains(t))
        .collect();
    // Solved once each, side by side, before tests are compared.
    let pairs: Vec<(Suspect, usize)> = suspects
        .iter()
        .flat_map(|(s, ..)| settings.iter().map(move |at| (*s, *at)))
        .collect();
    pairs.par_iter().for_each(|(s, at)| {
        bench.readings(*s, *at);
    });
    let worth = |test: &usize| {
        let t = bench.tests[*test];
        let moved = match t.setting == here {
            true => 0.0,
            false => bench.settings[t.setting].minutes,
        };
        Advice {
            test: *test,
            bits: bits(&sight(bench, suspects, *test)),
            minutes: t.minutes + moved,
            outcomes: Vec::new(),
        }
    };
    tests.par_iter().map(worth).collect()
}

/// A suspect, its cause among those that count, and how likely it is.
type Likely = (Suspect, usize, f64);

/// The suspects that count, and their causes.
fn likely(weighed: &Weighed) -> (Vec<Likely>, Vec<Vec<usize>>) {
    let mut causes: Vec<Vec<usize>> = Vec::new();
    let mut index: BTreeMap<Vec<usize>, usize> = BTreeMap::new();
    let mut found = Vec::new();
    let mut sum = 0.0;
    for (suspect, p) in weighed.suspects.iter().take(MOST) {
        let of = suspect.causes();
        let at = *index.entry(of.clone()).or_insert_with(|| {
            causes.push(of);
            causes.len() - 1
        });
        found.push((*suspect, at, *p));
        sum += p;
        if sum > ENOUGH {
            break;
        }
    }
    for f in &mut found {
        f.2 /= sum;
    }
    (found, causes)
}

/// The settings in which suspects show.
fn worth(bench: &Bench, suspects: &[Likely]) -> Vec<usize> {
    let all: BTreeSet<usize> = suspects
        .iter()
        .flat_map(|(s, ..)| bench.showing(*s))
        .collect();
    all.into_iter().collect()
}

fn sight(bench: &Bench, suspects: &[Likely], test: usize) -> Vec<Seen> {
    let each = suspects.iter().map(|(suspect, cause, p)| {
        let reads = bench.reads(*suspect, test);
        Seen {
            cause: *cause,
            p: *p,
            mean: reads.value,
            sd: reads.sd(),
        }
    });
    each.collect()
}

/// What a reading tells of which cause it is, bit.
fn bits(seen: &[Seen]) -> f64 {
    let causes = seen.iter().map(|s| s.cause).max().map_or(0, |m| m + 1);
    let mut whole = vec![0.0; causes];
    for s in seen {
        whole[s.cause] += s.p;
    }
    let mut told = 0.0;
    let mut of_cause = vec![0.0; causes];
    for s in seen {
        for (z, weight) in POINTS {
            let x = s.mean + z * s.sd;
            of_cause.fill(0.0);
            for other in seen {
                let off = (x - other.mean) / other.sd;
                if off.abs() < 9.0 {
                    of_cause[other.cause] += other.p * (-0.5 * off * off).exp() / other.sd;
                }
            }
            let all: f64 = of_cause.iter().sum();
            told += s.p * weight * (of_cause[s.cause] / (whole[s.cause] * all)).log2();
        }
    }
    told.max(0.0)
}

/// The kinds of outcome: below what a sound one reads, as that, and above it; what each speaks for.
fn outcomes(bench: &Bench, seen: &[Seen], causes: &[Vec<usize>], test: usize) -> Vec<Outcome> {
    let probe = bench.tests[test].probe;
    let limits = &bench.d.limits;
    let band = bench.band(test);
    let [low, high] = [band.low, band.high].map(|v| probe.scale(limits, v));
    let ranges = [(f64::NEG_INFINITY, low), (low, high), (high, f64::INFINITY)];
    let told = ranges.into_iter().filter_map(|(from, to)| {
        let mut by: BTreeMap<usize, f64> = BTreeMap::new();
        for s in seen.iter().filter(|s| s.mean >= from && s.mean < to) {
            *by.entry(s.cause).or_default() += s.p;
        }
        let mut by: Vec<(usize, f64)> = by.into_iter().collect();
        by.sort_by(|a, b| b.1.total_cmp(&a.1));
        let unscaled = |v: f64| {
            if v.is_finite() {
                probe.unscale(limits, v)
            } else {
                v
            }
        };
        (!by.is_empty()).then(|| Outcome {
            low: unscaled(from),
            high: unscaled(to),
            probability: by.iter().map(|b| b.1).sum(),
            causes: by.into_iter().map(|b| causes[b.0].clone()).collect(),
        })
    });
    told.collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    fn seen(cause: usize, p: f64, mean: f64) -> Seen {
        Seen {
            cause,
            p,
            mean,
            sd: 0.1,
        }
    }

    #[test]
    fn what_tells_two_apart_is_worth_a_bit_and_what_does_not_nothing() {
        assert!((bits(&[seen(0, 0.5, 0.0), seen(1, 0.5, 12.0)]) - 1.0).abs() < 1e-3);
        assert!(bits(&[seen(0, 0.5, 3.0), seen(1, 0.5, 3.0)]) < 1e-9);
        // Versions of one cause need not be told apart.
        assert!(bits(&[seen(0, 0.5, 0.0), seen(0, 0.5, 12.0)]) < 1e-9);
    }
}
