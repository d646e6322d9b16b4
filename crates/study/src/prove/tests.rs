//! The whole against itself: spreads by drawing lots, faults that are put in and found again.

use super::bench::Suspect;
use super::{Bench, Evidence, Practice, STANDS_OUT, alike, classes, next, weigh};
use crate::{Answers, Habits, study};
use loom::Loom;
use rayon::prelude::*;
use stock::Stock;

/// An example that is answered.
pub(super) struct Ready {
    stock: Stock,
    loom: Loom,
    habits: Habits,
    answers: Answers,
}

pub(super) fn ready(text: &str) -> Ready {
    let stock = Stock::embedded();
    let (plan, errors) = plan::Plan::read(text);
    let plan = plan.unwrap_or_else(|| panic!("{errors:?}"));
    let (loom, _) = loom::build(&plan, &stock);
    let loom = loom.expect("it builds");
    let habits = Habits::of(&plan, &loom, &stock).quick();
    let answers = study(&loom, &stock, &habits);
    Ready {
        stock,
        loom,
        habits,
        answers,
    }
}

impl Ready {
    pub fn bench(&self) -> Bench<'_> {
        Bench::new(&self.loom, &self.stock, &self.habits, &self.answers)
    }
}

pub(super) const FARM: &str = include_str!("../../../../examples/farm.toml");

#[test]
fn spreads_are_those_that_lots_have() {
    let ready = ready(FARM);
    let bench = ready.bench();
    let mut worst = (0.0_f64, String::new());
    for (setting, _) in bench.settings.iter().enumerate() {
        let tests: Vec<usize> = bench
            .of_setting(setting)
            .filter(|t| !matches!(bench.tests[*t].probe, super::Probe::Ohms(_)))
            .collect();
        let probes: Vec<_> = tests.iter().map(|t| bench.tests[*t].probe).collect();
        let found = bench.found(Suspect::Nothing, setting);
        let count = 4000;
        let mut sums = vec![(0.0, 0.0); probes.len()];
        for seed in 0..count {
            let vehicle = Practice::of(&bench, Suspect::Nothing, seed);
            let drawn = found.drawn(&probes, &|p| vehicle.by(p)).expect("it solves");
            for (s, v) in sums.iter_mut().zip(drawn) {
                s.0 += v;
                s.1 += v * v;
            }
        }
        for (test, (sum, squares)) in tests.iter().zip(sums) {
            let n = count as f64;
            let mean = sum / n;
            let seen = (squares / n - mean * mean).max(0.0).sqrt();
            let reads = bench.reads(Suspect::Nothing, *test);
            let told = reads.moves.iter().map(|(_, m)| m * m).sum::<f64>().sqrt();
            // What the meter blurs anyway is not looked at.
            if seen < 0.2 * reads.meter && told < 0.2 * reads.meter {
                continue;
            }
            let off = (told / seen - 1.0).abs();
            let name = format!(
                "{}: {} told {told:.5} seen {seen:.5} ({off:.3}), value {:.4} mean {mean:.4}",
                bench.settings[setting].state.name,
                bench.tests[*test].probe.name(bench.loom()),
                reads.value
            );
            if off > worst.0 {
                worst = (off, name);
            }
        }
    }
    // Lots of 4000 are themselves within some 1.1 % of the truth, one standard deviation.
    assert!(worst.0 < 0.05, "{}", worst.1);
}

/// What came of a search.
struct Search {
    truth: Suspect,
    probings: usize,
    /// Whether the first class holds the truth, or what no reading tells from it.
    right: bool,
    /// What it said instead, or how sure it was.
    said: String,
}

/// Searches for something that was put in, from what is seen of it and the probings that are advised.
fn search(bench: &Bench, truth: Suspect, number: u64) -> Search {
    let vehicle = Practice::of(bench, truth, number);
    let mut evidence = Evidence {
        symptoms: vehicle.symptoms(),
        ..Evidence::default()
    };
    let mut weighed = weigh(bench, &evidence);
    for _ in 0..MOST_PROBINGS {
        if classes(bench, &weighed)[0].probability > STANDS_OUT {
            break;
        }
        let Some(advice) = next(bench, &evidence, &weighed) else {
            break;
        };
        evidence
            .readings
            .push(vehicle.measure(advice.test).expect("it solves"));
        weighed = weigh(bench, &evidence);
    }
    let first = &classes(bench, &weighed)[0];
    let mine = |m: &usize| {
        let w = &weighed.weights[*m];
        w.causes == truth.causes() || alike(bench, w.suspect, truth)
    };
    let best = &weighed.weights[first.members[0]];
    Search {
        truth,
        probings: evidence.readings.len(),
        right: first.members.iter().any(mine),
        said: format!(
            "{:.2} {:?} {:?}",
            first.probability,
            best.causes
                .iter()
                .map(|c| (bench.causes[*c].kind, bench.causes[*c].at.as_str()))
                .collect::<Vec<_>>(),
            best.ohms
        ),
    }
}

/// Nobody measures longer.
const MOST_PROBINGS: usize = 25;

/// Every cause of a loom is put in, in its middle version, and searched for.
fn searches(text: &str) -> (usize, Vec<String>, f64) {
    let ready = ready(text);
    let bench = ready.bench();
    let truths: Vec<Suspect> = bench
        .causes
        .iter()
        .enumerate()
        .map(|(c, cause)| Suspect::One(c, cause.versions.len() / 2))
        .filter(|truth| !bench.is_hidden(*truth))
        .collect();
    let all: Vec<Search> = truths
        .par_iter()
        .enumerate()
        .map(|(i, truth)| search(&bench, *truth, i as u64))
        .collect();
    let name = |s: Suspect| {
        s.causes()
            .iter()
            .map(|c| format!("{} {}", bench.causes[*c].kind, bench.causes[*c].at))
            .collect::<String>()
    };
    let wrong = all.iter().filter(|s| !s.right);
    let wrong: Vec<String> = wrong
        .map(|s| format!("{} after {}: {}", name(s.truth), s.probings, s.said))
        .collect();
    let probings = all.iter().map(|s| s.probings).sum::<usize>() as f64 / all.len() as f64;
    (all.len(), wrong, probings)
}

#[test]
fn explore() {
    for text in [
        FARM,
        include_str!("../../../../examples/camper.toml"),
        include_str!("../../../../examples/lorry.toml"),
    ] {
        let began = std::time::Instant::now();
        let (all, wrong, probings) = searches(text);
        println!(
            "{} wrong of {all}, {probings:.2} probings, {:?}: {wrong:#?}",
            wrong.len(),
            began.elapsed()
        );
    }
}
