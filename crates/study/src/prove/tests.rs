//! The whole against itself: spreads by drawing lots, faults that are put in and found again.

use super::bench::Suspect;
use super::{Bench, Evidence, Goes, Measured, Param, Symptom, alike, classes, next, sheet, weigh};
use crate::{Answers, Habits, study};
use loom::Loom;
use std::cell::RefCell;
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

/// Lots drawn from a seed (xorshift64*, Vigna 2016; normal by Box and Muller).
pub(super) struct Lots(u64);

impl Lots {
    pub fn new(seed: u64) -> Self {
        Self(seed.wrapping_mul(0x9E37_79B9_7F4A_7C15) | 1)
    }

    pub fn even(&mut self) -> f64 {
        self.0 ^= self.0 >> 12;
        self.0 ^= self.0 << 25;
        self.0 ^= self.0 >> 27;
        (self.0.wrapping_mul(0x2545_F491_4F6C_DD1D) >> 11) as f64 / (1_u64 << 53) as f64
    }

    pub fn normal(&mut self) -> f64 {
        let (a, b) = (self.even().max(1e-12), self.even());
        (-2.0 * a.ln()).sqrt() * (std::f64::consts::TAU * b).cos()
    }
}

/// A vehicle: each thing that is not known exactly, as it is there.
pub(super) struct Vehicle {
    lots: RefCell<(Lots, BTreeMap<Param, f64>)>,
}

impl Vehicle {
    pub fn new(seed: u64) -> Self {
        Self {
            lots: RefCell::new((Lots::new(seed), BTreeMap::new())),
        }
    }

    pub fn by(&self, param: Param) -> f64 {
        let (lots, known) = &mut *self.lots.borrow_mut();
        *known.entry(param).or_insert_with(|| lots.normal())
    }

    /// What a meter says of a probing on it, with something amiss.
    pub fn measure(&self, bench: &Bench, suspect: Suspect, test: usize) -> Measured {
        let t = bench.tests[test];
        let found = bench.found(suspect, t.setting);
        let by = |p: Param| if p == Param::Size { 0.0 } else { self.by(p) };
        let read = found.drawn(&[t.probe], &by).expect("it solves")[0];
        let meter = t.probe.meter(&bench.d.limits, read);
        let noise = self.lots.borrow_mut().0.normal() * meter;
        Measured {
            test,
            value: t.probe.unscale(&bench.d.limits, read + noise),
        }
    }
}

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
            let vehicle = Vehicle::new(seed + 1);
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
            println!("{name}");
            if off > worst.0 {
                worst = (off, name);
            }
        }
    }
    // Lots of 4000 are themselves within some 1.1 % of the truth, one standard deviation.
    assert!(worst.0 < 0.05, "{}", worst.1);
}

#[test]
fn explore() {
    let ready = ready(FARM);
    let bench = ready.bench();
    println!(
        "{} settings, {} tests, {} causes",
        bench.settings.len(),
        bench.tests.len(),
        bench.causes.len()
    );
    let s = sheet(&bench);
    println!("proved {}", s.proved);
    for t in &s.tests {
        let b = bench.band(*t);
        println!(
            "{} | {}: {:.3} ({:.3} to {:.3})",
            bench.settings[bench.tests[*t].setting].state.name,
            bench.tests[*t].probe.name(bench.loom()),
            b.expected,
            b.low,
            b.high
        );
    }
    for c in &s.hidden {
        println!(
            "hidden: {} {}",
            bench.causes[*c].kind, bench.causes[*c].says
        );
    }
    let mut right = 0;
    let mut total = 0;
    let mut probings = 0;
    for (c, cause) in bench.causes.iter().enumerate() {
        let version = cause.versions.len() / 2;
        let truth = Suspect::One(c, version);
        if bench.is_hidden(truth) {
            continue;
        }
        let vehicle = Vehicle::new(c as u64 + 77);
        let mut evidence = Evidence {
            symptoms: seen(&bench, truth),
            ..Evidence::default()
        };
        let mut weighed = weigh(&bench, &evidence);
        for _ in 0..25 {
            if classes(&bench, &weighed)[0].probability > 0.95 {
                break;
            }
            let Some(advice) = next(&bench, &evidence, &weighed) else {
                break;
            };
            evidence
                .readings
                .push(vehicle.measure(&bench, truth, advice.test));
            weighed = weigh(&bench, &evidence);
        }
        let first = &classes(&bench, &weighed)[0];
        let ok = first.members.iter().any(|m| {
            weighed.weights[*m].causes == vec![c]
                || alike(&bench, weighed.weights[*m].suspect, truth)
        });
        right += usize::from(ok);
        total += 1;
        probings += evidence.readings.len();
        let top: Vec<String> = first
            .members
            .iter()
            .map(|m| {
                let w = &weighed.weights[*m];
                format!(
                    "{:?} {:.2} {:?}",
                    w.causes
                        .iter()
                        .map(|c| (bench.causes[*c].kind, bench.causes[*c].at.clone()))
                        .collect::<Vec<_>>(),
                    w.probability,
                    w.ohms
                )
            })
            .collect();
        println!(
            "{} {} {} {:?} after {}: {top:?}",
            if ok { "ok " } else { "BAD" },
            cause.kind,
            cause.at,
            cause.versions[version].ohms,
            evidence.readings.len()
        );
    }
    println!("{right} of {total}, {probings} probings");
}

/// What somebody sees of a fault before the meter is fetched.
fn seen(bench: &Bench, truth: Suspect) -> Vec<Symptom> {
    let loads = bench.loom().circuits.iter().flat_map(|c| &c.loads);
    let mut seen = Vec::new();
    for load in loads {
        let goes = bench
            .setting_of(*load)
            .and_then(|s| bench.sight(truth, s).loads.get(load).copied());
        seen.push(match goes {
            Some(Goes::Well) => Symptom::Works(*load),
            Some(Goes::Weakly) => Symptom::Weak(*load),
            _ => Symptom::Dead(*load),
        });
        let rest = bench.sight(truth, 0).loads.get(load).copied();
        if rest.is_some_and(|g| g > Goes::Not) {
            seen.push(Symptom::StaysOn(*load));
        }
    }
    let flat = bench
        .each(truth)
        .any(|c| matches!(c.kind, "battery-flat" | "not-charged"));
    if flat {
        seen.push(Symptom::GoesFlat);
    }
    seen
}
