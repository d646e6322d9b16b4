//! All that is to be told at once: the sheet with what was read, the verdict, what may be amiss, the next test.

use super::alike::{Class, classes};
use super::bench::Bench;
use super::next::{Advice, next};
use super::sheet::Sheet;
use super::verdict::{Band, Proof, Verdict};
use super::weigh::{Evidence, Measured, furthest, weigh};

/// A probing of the sheet, or one that was made besides.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Row {
    /// Index into the bench's tests.
    pub test: usize,
    /// What a sound installation reads.
    pub band: Band,
    /// What was read last, with the verdict on it.
    pub had: Option<(f64, Verdict)>,
}

/// Causes that no reading tells apart, with how likely they are together.
#[derive(Clone, Debug, PartialEq)]
pub struct Ranked {
    /// Each alone, or pairs: causes by index, how likely, and the resistance that it comes to, Ω, with the range that holds nine
    /// times in ten.
    pub members: Vec<Member>,
    /// How likely all of them together, 0 to 1.
    pub probability: f64,
}

/// One of them.
#[derive(Clone, Debug, PartialEq)]
pub struct Member {
    /// Which causes, by index; none if nothing is amiss, two for a pair.
    pub causes: Vec<usize>,
    /// How likely, 0 to 1.
    pub probability: f64,
    /// Resistance, Ω: likeliest, from, to.
    pub ohms: Option<(f64, f64, f64)>,
}

/// What was worked out of what was read.
#[derive(Clone, Debug, PartialEq)]
pub struct Answered {
    /// The sheet, and what was read besides.
    pub rows: Vec<Row>,
    /// The verdict on the installation.
    pub proof: Proof,
    /// What may be amiss, the likeliest first; empty while nothing speaks for anything.
    pub causes: Vec<Ranked>,
    /// Whether even the likeliest does not fit what was read.
    pub fits_nothing: bool,
    /// The reading that is furthest from all that fits, to be measured again, where nothing fits.
    pub again: Option<usize>,
    /// What to measure next to find the cause.
    pub next: Option<Advice>,
}

/// A class below this is not told: our own.
const TOLD: f64 = 0.01;
/// So many are told at most.
const MOST: usize = 8;
/// One cause stands out from here: our own.
pub const STANDS_OUT: f64 = 0.95;

/// Works it out.
pub fn answer(bench: &Bench, sheet: &Sheet, evidence: &Evidence) -> Answered {
    let proof = bench.proof(&sheet.tests, &evidence.readings);
    let mut tests = sheet.tests.clone();
    tests.extend(evidence.readings.iter().map(|m| m.test));
    tests.sort_unstable();
    tests.dedup();
    let rows = tests
        .into_iter()
        .map(|test| row(bench, evidence, test))
        .collect();
    // While all that was read is sound, nobody searches for anything.
    let searched = !evidence.symptoms.is_empty()
        || matches!(proof, Proof::Except(_) | Proof::NotProved { .. });
    if !searched {
        return Answered {
            rows,
            proof,
            causes: Vec::new(),
            fits_nothing: false,
            again: None,
            next: None,
        };
    }
    let weighed = weigh(bench, evidence);
    let classes = classes(bench, &weighed);
    let stands_out = classes.first().is_some_and(|c| c.probability >= STANDS_OUT);
    let member = |i: &usize| {
        let w = &weighed.weights[*i];
        Member {
            causes: w.causes.clone(),
            probability: w.probability,
            ohms: w.ohms,
        }
    };
    let told = classes.iter().filter(|c| c.probability >= TOLD).take(MOST);
    // What looks like nothing amiss is told as that.
    let nothing = |c: &Class| {
        let of = c
            .members
            .iter()
            .find(|m| weighed.weights[**m].causes.is_empty());
        of.map(|m| Ranked {
            members: vec![Member {
                probability: c.probability,
                ..member(m)
            }],
            probability: c.probability,
        })
    };
    let causes = told.map(|c| {
        nothing(c).unwrap_or_else(|| Ranked {
            members: c
                .members
                .iter()
                .filter(|m| weighed.weights[**m].probability >= TOLD / 2.0)
                .map(member)
                .collect(),
            probability: c.probability,
        })
    });
    Answered {
        rows,
        proof,
        causes: causes.collect(),
        fits_nothing: weighed.fits_nothing,
        again: furthest(bench, evidence, &weighed).filter(|_| weighed.fits_nothing),
        next: if stands_out && !weighed.fits_nothing {
            None
        } else {
            next(bench, evidence, &weighed)
        },
    }
}

fn row(bench: &Bench, evidence: &Evidence, test: usize) -> Row {
    let band = bench.band(test);
    let last = evidence.readings.iter().rev().find(|m| m.test == test);
    Row {
        test,
        band,
        had: last.map(|m: &Measured| (m.value, band.verdict(m.value))),
    }
}

impl Bench<'_> {
    /// A probing by its name: "parked, rack lamps on | V F1:1 F1:2"; or by its number on the sheet, from 1.
    pub fn named(&self, name: &str) -> Option<usize> {
        let name = name.trim();
        if let Ok(number) = name.trim_start_matches('#').parse::<usize>() {
            return number.checked_sub(1).filter(|t| *t < self.tests.len());
        }
        (0..self.tests.len()).find(|t| self.name(*t) == name)
    }

    /// The name of a probing, which stays as long as what it names does.
    pub fn name(&self, test: usize) -> String {
        let t = self.tests[test];
        format!(
            "{} | {}",
            self.settings[t.setting].state.name,
            t.probe.name(self.loom())
        )
    }
}
