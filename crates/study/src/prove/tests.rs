//! The whole against itself: spreads by drawing lots, faults that are put in and found again.

use super::bench::Suspect;
use super::next::{self as advice, next};
use super::{Bench, Evidence, Practice, STANDS_OUT, alike, classes, weigh};
use crate::{Answers, Habits, study};
use loom::Loom;
use rayon::prelude::*;
use std::collections::BTreeMap;
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

/// What the causes of a loom come to when each is put in and searched for: kinds and what they were taken for, how many
/// probings, and how many the readings at their best would have needed.
fn found_again(text: &str, every: usize) -> String {
    let ready = ready(text);
    let bench = ready.bench();
    let truths: Vec<Suspect> = bench
        .causes
        .iter()
        .enumerate()
        .step_by(every)
        .map(|(c, cause)| Suspect::One(c, cause.versions.len() / 2))
        .filter(|truth| !bench.is_hidden(*truth))
        .collect();
    let numbered = truths.par_iter().enumerate();
    let all: Vec<(Search, f64)> = numbered
        .map(|(i, t)| (search(&bench, *t, i as u64), bound(&bench, *t, i as u64)))
        .collect();
    let kind = |s: Suspect| {
        s.causes()
            .first()
            .map_or("nothing", |c| bench.causes[*c].kind)
    };
    let mut table: BTreeMap<(&str, String), usize> = BTreeMap::new();
    for (s, _) in &all {
        let taken = if s.right {
            "itself".to_owned()
        } else {
            s.said.clone()
        };
        *table.entry((kind(s.truth), taken)).or_default() += 1;
    }
    let count = all.len() as f64;
    let right = all.iter().filter(|(s, _)| s.right).count() as f64;
    assert!(right >= 0.95 * count, "{table:#?}");
    let probings = all.iter().map(|(s, _)| s.probings as f64).sum::<f64>() / count;
    let bound = all.iter().map(|(_, b)| b).sum::<f64>() / count;
    assert!(probings <= bound + 3.0, "{probings} of {bound}");
    let rows: Vec<String> = table
        .iter()
        .map(|((kind, taken), n)| format!("{n:>3} {kind}: {taken}"))
        .collect();
    format!(
        "{right} of {count} found, {probings:.1} probings; the bound is {bound:.1}\n{}",
        rows.join("\n")
    )
}

/// The fewest probings that what is not known after a first look could be told by: its bits, by the most that any one probing
/// tells.
fn bound(bench: &Bench, truth: Suspect, number: u64) -> f64 {
    let evidence = Evidence {
        symptoms: Practice::of(bench, truth, number).symptoms(),
        ..Evidence::default()
    };
    let weighed = weigh(bench, &evidence);
    let classes = classes(bench, &weighed);
    let bits: f64 = classes
        .iter()
        .map(|c| -c.probability * c.probability.max(1e-12).log2())
        .sum();
    let most = advice::most_bits(bench, &evidence, &weighed);
    if bits < 0.1 {
        0.0
    } else {
        bits / most.max(0.1)
    }
}

#[test]
fn what_is_put_in_is_found_again() {
    insta::assert_snapshot!("farm", found_again(FARM, 1));
    insta::assert_snapshot!(
        "camper",
        found_again(include_str!("../../../../examples/camper.toml"), 1)
    );
    insta::assert_snapshot!(
        "lorry",
        found_again(include_str!("../../../../examples/lorry.toml"), 5)
    );
}

#[test]
fn two_at_once_are_found_too() {
    let ready = ready(FARM);
    let bench = ready.bench();
    let at = |kind: &str, at: &str| {
        bench
            .causes
            .iter()
            .position(|c| c.kind == kind && c.at == at)
            .expect("the cause")
    };
    let (earth, dead) = (at("earth-poor", "XE3"), at("load-dead", "E1.1"));
    let vehicle = Practice::of(&bench, Suspect::Two((earth, 4), (dead, 0)), 3);
    let mut evidence = Evidence {
        symptoms: vehicle.symptoms(),
        ..Evidence::default()
    };
    for _ in 0..MOST_PROBINGS {
        let weighed = weigh(&bench, &evidence);
        if weighed.weights[0].causes.len() == 2 && weighed.weights[0].probability > 0.9 {
            break;
        }
        let Some(advice) = next(&bench, &evidence, &weighed) else {
            break;
        };
        evidence
            .readings
            .push(vehicle.measure(advice.test).expect("it solves"));
    }
    let weighed = weigh(&bench, &evidence);
    let mut causes = weighed.weights[0].causes.clone();
    causes.sort_unstable();
    let mut both = vec![earth, dead];
    both.sort_unstable();
    assert_eq!(causes, both, "{:?}", weighed.weights);
}

/// What is given so and so likely is right as often.
#[test]
fn likely_means_as_often() {
    let ready = ready(FARM);
    let bench = ready.bench();
    // By tenths of what was given: how often, how often right, the sum of what was given.
    let runs: Vec<(f64, bool)> = (0..RUNS)
        .into_par_iter()
        .map(|number| {
            let vehicle = Practice::unnoticed(&bench, number);
            let truth = vehicle.amiss();
            let settings = bench.showing(truth);
            let tests: Vec<usize> = settings
                .iter()
                .flat_map(|s| bench.of_setting(*s))
                .filter(|t| {
                    !matches!(
                        bench.tests[*t].probe,
                        super::Probe::NewFuse(_) | super::Probe::NewFuseAlone(_)
                    )
                })
                .collect();
            // Three readings taken by lot.
            let by_lot = (1..=3_u64)
                .map(|k| tests[(number.wrapping_mul(k * 7919 + 13) >> 3) as usize % tests.len()]);
            let evidence = Evidence {
                readings: by_lot.filter_map(|t| vehicle.measure(t)).collect(),
                ..Evidence::default()
            };
            let weighed = weigh(&bench, &evidence);
            // Practice always has something amiss.
            let amiss: f64 = weighed
                .weights
                .iter()
                .filter(|w| !w.causes.is_empty())
                .map(|w| w.probability)
                .sum();
            let first = weighed
                .weights
                .iter()
                .find(|w| !w.causes.is_empty())
                .expect("a cause");
            (first.probability / amiss, first.causes == truth.causes())
        })
        .collect();
    let mut told = Vec::new();
    for tenth in 0..10 {
        let low = f64::from(tenth) / 10.0;
        let here = runs
            .iter()
            .filter(|r| r.0 >= low && (r.0 < low + 0.1 || tenth == 9));
        let (mut count, mut right, mut given) = (0.0, 0.0, 0.0);
        for (p, is) in here {
            count += 1.0;
            right += f64::from(u8::from(*is));
            given += p;
        }
        if count >= 60.0 {
            let (seen, given) = (right / count, given / count);
            let sd = (given * (1.0 - given) / count).sqrt();
            told.push(format!(
                "{low:.1}: {count} given {given:.3} right {seen:.3}"
            ));
            assert!((seen - given).abs() < 0.05 + 3.0 * sd, "{told:#?}");
        }
    }
    assert!(told.len() >= 5, "{told:#?}");
    println!("{told:#?}");
}

/// So many vehicles: enough to see a tenth that is off by five in a hundred.
const RUNS: u64 = 10_000;
