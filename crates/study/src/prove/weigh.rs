//! What readings and symptoms say of what may be amiss: everything that may be, each alone, and the likely pairs, weighed by
//! Bayes' rule. Readings hang together by what they share; each may be a slip of whoever read it.

use super::bench::{Bench, Suspect};
use super::reading::Reads;
use super::spread::Param;
use super::symptom::Symptom;
use physics::normal::one_after_another;
use rayon::prelude::*;

/// A reading that was taken.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Measured {
    /// Which probing: index into the bench's tests.
    pub test: usize,
    /// What was read, in the unit of its probe.
    pub value: f64,
}

/// All that is known.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Evidence {
    /// Readings in the order taken.
    pub readings: Vec<Measured>,
    /// What was seen.
    pub symptoms: Vec<Symptom>,
}

/// Something that may be amiss, with how likely it is.
#[derive(Clone, Debug, PartialEq)]
pub struct Weight {
    /// Which causes, by index; none if nothing is amiss, two for a pair.
    pub causes: Vec<usize>,
    /// How likely, 0 to 1.
    pub probability: f64,
    /// The way in which it shows that is likeliest.
    pub suspect: Suspect,
    /// Resistance that it adds, Ω: likeliest, and the range that holds nine times in ten.
    pub ohms: Option<(f64, f64, f64)>,
}

/// What evidence comes to.
#[derive(Clone, Debug, PartialEq)]
pub struct Weighed {
    /// The likeliest first.
    pub weights: Vec<Weight>,
    /// By suspect that counts: how likely, 0 to 1.
    pub(crate) suspects: Vec<(Suspect, f64)>,
    /// Whether even the likeliest does not fit what was read.
    pub fits_nothing: bool,
}

/// A reading is a slip so often: our own.
const SLIP: f64 = 0.005;
/// Pairs are looked at where the likeliest single cause is off by more than would happen so seldom.
const PAIRS_BELOW: f64 = 0.02;
/// It fits nothing where it would happen so seldom.
const NOTHING_BELOW: f64 = 1e-4;
/// So many of the likeliest are put into pairs, from all the evidence and from what they leave.
const PAIRED: usize = 14;
/// Suspects below this part of the likeliest no longer count.
const COUNTS: f64 = 1e-6;

/// Of one suspect.
#[derive(Clone, Copy, Debug)]
struct Told {
    suspect: Suspect,
    /// Logarithm of prior and likelihood.
    log: f64,
    /// Sum of the squares of how far readings are off, in their standard deviations.
    off: f64,
}

/// Weighs everything that may be amiss.
pub fn weigh(bench: &Bench, evidence: &Evidence) -> Weighed {
    let singles = singles(bench);
    let mut told: Vec<Told> = singles
        .par_iter()
        .map(|s| tell(bench, evidence, *s))
        .collect();
    sort(&mut told);
    let count = evidence.readings.len();
    let symptoms_fit = |t: &Told| {
        evidence
            .symptoms
            .iter()
            .all(|s| s.likely(bench, t.suspect) > 0.04)
    };
    let best = told[0];
    if count > 0 && (seldom(best.off, count) < PAIRS_BELOW || !symptoms_fit(&best)) {
        let pairs = pairs(bench, evidence, &told);
        told.extend(
            pairs
                .par_iter()
                .map(|s| tell(bench, evidence, *s))
                .collect::<Vec<_>>(),
        );
        sort(&mut told);
    }
    let most = told[0].log;
    let total: f64 = told.iter().map(|t| (t.log - most).exp()).sum();
    let suspects: Vec<(Suspect, f64)> = told
        .iter()
        .map(|t| (t.suspect, (t.log - most).exp() / total))
        .take_while(|(_, p)| *p > COUNTS)
        .collect();
    Weighed {
        weights: together(bench, evidence, &suspects),
        fits_nothing: count > 0 && seldom(told[0].off, count) < NOTHING_BELOW,
        suspects,
    }
}

fn sort(told: &mut [Told]) {
    told.sort_by(|a, b| b.log.total_cmp(&a.log).then(a.suspect.cmp(&b.suspect)));
}

/// Nothing, and each cause in each of its versions.
fn singles(bench: &Bench) -> Vec<Suspect> {
    let each = bench.causes.iter().enumerate();
    let each =
        each.flat_map(|(c, cause)| (0..cause.versions.len()).map(move |v| Suspect::One(c, v)));
    std::iter::once(Suspect::Nothing).chain(each).collect()
}

/// Pairs of what explains most with what explains best what that leaves.
fn pairs(bench: &Bench, evidence: &Evidence, told: &[Told]) -> Vec<Suspect> {
    let alone = |one: &Evidence| -> Vec<(usize, usize)> {
        let mut told: Vec<Told> = told.iter().map(|t| tell(bench, one, t.suspect)).collect();
        sort(&mut told);
        firsts(&told)
    };
    let mut found: Vec<Vec<(usize, usize)>> = vec![firsts(told)];
    for reading in &evidence.readings {
        found.push(alone(&Evidence {
            readings: vec![*reading],
            symptoms: Vec::new(),
        }));
    }
    for symptom in &evidence.symptoms {
        found.push(alone(&Evidence {
            readings: Vec::new(),
            symptoms: vec![*symptom],
        }));
    }
    let mut all: Vec<(usize, usize)> = found
        .into_iter()
        .flat_map(|f| f.into_iter().take(PAIRED))
        .collect();
    all.sort_unstable();
    all.dedup();
    let touches = |s: (usize, usize)| bench.causes[s.0].versions[s.1].change.touch.is_some();
    let mut pairs = Vec::new();
    for (i, a) in all.iter().enumerate() {
        for b in &all[i + 1..] {
            if a.0 != b.0
                && bench.causes[a.0].at != bench.causes[b.0].at
                && !(touches(*a) && touches(*b))
            {
                pairs.push(Suspect::Two(*a, *b));
            }
        }
    }
    pairs
}

/// The likeliest version of each cause, the likeliest first.
fn firsts(told: &[Told]) -> Vec<(usize, usize)> {
    let mut met = std::collections::BTreeSet::new();
    let each = told.iter().filter_map(|t| match t.suspect {
        Suspect::One(c, v) => Some((c, v)),
        _ => None,
    });
    each.filter(|(c, _)| met.insert(*c)).take(PAIRED).collect()
}

/// Logarithm of how likely something is before anything is known; against that nothing is amiss.
fn prior(bench: &Bench, suspect: Suspect) -> f64 {
    let one = |c: usize| {
        let cause = &bench.causes[c];
        let p = cause.prior.clamp(1e-6, 0.5);
        (p / (1.0 - p)).ln() - (cause.versions.len() as f64).ln()
    };
    match suspect {
        Suspect::Nothing => 0.0,
        Suspect::One(c, _) => one(c),
        Suspect::Two(a, b) => one(a.0) + one(b.0),
    }
}

/// What is expected of each reading with something amiss.
pub(crate) fn expected(bench: &Bench, suspect: Suspect, readings: &[Measured]) -> Vec<Reads> {
    let of = |m: &Measured| bench.reads(suspect, m.test);
    readings.iter().map(of).collect()
}

fn tell(bench: &Bench, evidence: &Evidence, suspect: Suspect) -> Told {
    let reads = expected(bench, suspect, &evidence.readings);
    let mut log = prior(bench, suspect);
    let mut off = 0.0;
    for ((left, sd), measured) in departures(bench, &reads, &evidence.readings)
        .into_iter()
        .zip(&evidence.readings)
    {
        let z = left / sd;
        let wide = bench.tests[measured.test].probe.width(bench.d.nominal());
        let likely = (1.0 - SLIP) * (-0.5 * z * z).exp() / (sd * (std::f64::consts::TAU).sqrt())
            + SLIP / wide;
        log += likely.ln();
        off += z * z;
    }
    for symptom in &evidence.symptoms {
        log += symptom.likely(bench, suspect).ln();
    }
    Told { suspect, log, off }
}

/// How far each reading is from what those before it let expect, and its standard deviation then.
fn departures(bench: &Bench, reads: &[Reads], readings: &[Measured]) -> Vec<(f64, f64)> {
    let departures: Vec<f64> = reads
        .iter()
        .zip(readings)
        .map(|(r, m)| bench.tests[m.test].probe.scale(&bench.d.limits, m.value) - r.value)
        .collect();
    one_after_another(&departures, |i, j| match i == j {
        true => reads[i].sd().powi(2),
        false => reads[i].shared(&reads[j]),
    })
}

/// The test whose reading the likeliest suspect fits worst.
pub(super) fn furthest(bench: &Bench, evidence: &Evidence, weighed: &Weighed) -> Option<usize> {
    let (suspect, _) = weighed.suspects.first()?;
    let reads = expected(bench, *suspect, &evidence.readings);
    let off = reads.iter().zip(&evidence.readings).map(|(r, m)| {
        let read = bench.tests[m.test].probe.scale(&bench.d.limits, m.value);
        (m.test, ((read - r.value) / r.sd()).abs())
    });
    off.max_by(|a, b| a.1.total_cmp(&b.1)).map(|o| o.0)
}

/// How seldom a sum of squares of so many standard deviations would be so large or larger (Wilson and Hilferty 1931, textbook).
pub(crate) fn seldom(squares: f64, count: usize) -> f64 {
    let n = count as f64;
    let spread = 2.0 / (9.0 * n);
    let z = ((squares / n).cbrt() - (1.0 - spread)) / spread.sqrt();
    upper(z)
}

/// Part of a normal distribution above z (Abramowitz and Stegun 26.2.17, from memory, good to 1e-7).
fn upper(z: f64) -> f64 {
    if z < 0.0 {
        return 1.0 - upper(-z);
    }
    let t = 1.0 / (1.0 + 0.231_641_9 * z);
    let by = [
        0.319_381_530,
        -0.356_563_782,
        1.781_477_937,
        -1.821_255_978,
        1.330_274_429,
    ];
    let sum = by.iter().rev().fold(0.0, |sum, b| t * (b + sum));
    sum * (-0.5 * z * z).exp() / std::f64::consts::TAU.sqrt()
}

/// Versions of the same causes together, with the resistance that they come to.
fn together(bench: &Bench, evidence: &Evidence, suspects: &[(Suspect, f64)]) -> Vec<Weight> {
    let mut found: Vec<Weight> = Vec::new();
    for (suspect, probability) in suspects {
        let causes = suspect.causes();
        match found.iter_mut().find(|w| w.causes == causes) {
            Some(w) => w.probability += probability,
            None => found.push(Weight {
                causes,
                probability: *probability,
                suspect: *suspect,
                ohms: None,
            }),
        }
    }
    found.sort_by(|a, b| b.probability.total_cmp(&a.probability));
    for w in found.iter_mut().take(3) {
        w.ohms = ohms(bench, evidence, w, suspects);
    }
    found
}

/// The resistance of a cause: of each version what the readings make of it, and all of them together.
fn ohms(
    bench: &Bench,
    evidence: &Evidence,
    of: &Weight,
    suspects: &[(Suspect, f64)],
) -> Option<(f64, f64, f64)> {
    let mine = suspects.iter().filter(|(s, _)| s.causes() == of.causes);
    let mut parts: Vec<(f64, f64, f64)> = Vec::new();
    for (suspect, p) in mine {
        let Suspect::One(c, v) = *suspect else {
            return None;
        };
        let tried = bench.causes[c].versions[v].ohms?;
        let reads = expected(bench, *suspect, &evidence.readings);
        let (shift, left) = size(bench, &reads, &evidence.readings);
        parts.push((
            *p,
            tried.ln() + super::spread::STEP * shift,
            super::spread::STEP * left,
        ));
    }
    let total: f64 = parts.iter().map(|p| p.0).sum();
    let mean = parts.iter().map(|(p, m, _)| p * m).sum::<f64>() / total;
    let var = parts
        .iter()
        .map(|(p, m, s)| p * (s * s + (m - mean).powi(2)))
        .sum::<f64>()
        / total;
    let sd = var.sqrt();
    // Nine times in ten: 1.645 standard deviations either way.
    (total > 0.0).then(|| {
        (
            mean.exp(),
            (mean - 1.645 * sd).exp(),
            (mean + 1.645 * sd).exp(),
        )
    })
}

/// What readings say of the size within its step: how many standard deviations, and what is left of one.
fn size(bench: &Bench, reads: &[Reads], readings: &[Measured]) -> (f64, f64) {
    let by = |r: &Reads| {
        r.moves
            .iter()
            .find(|(p, _)| *p == Param::Size)
            .map_or(0.0, |m| m.1)
    };
    let departures: Vec<f64> = reads
        .iter()
        .zip(readings)
        .map(|(r, m)| bench.tests[m.test].probe.scale(&bench.d.limits, m.value) - r.value)
        .chain([0.0])
        .collect();
    // The size itself as one more value, last: what the readings before it let expect of it.
    let n = reads.len();
    let told = one_after_another(&departures, |i, j| match (i == n, j == n) {
        (true, true) => 1.0,
        (true, false) => by(&reads[j]),
        (false, true) => by(&reads[i]),
        _ if i == j => reads[i].sd().powi(2),
        _ => reads[i].shared(&reads[j]),
    });
    let (left, sd) = told[n];
    (-left, sd)
}
