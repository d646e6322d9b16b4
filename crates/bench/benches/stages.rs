//! Each stage of the walk by itself, on the farm example and on generated plans of 5 to 40 circuits:
//! stock, parse, expand, solve, study, supply, draw. `cargo bench -p bench`; one stage: `cargo bench -p bench -- solve`.

use bench::plan_text;
use criterion::{BenchmarkId, Criterion, criterion_group, criterion_main};
use job::sheet::{self, Title};
use job::study::prove::{Advice, Bench, Evidence, Kept, Symptom, next, weigh};
use job::study::{self, Answers, Habits, Model};
use job::{Loom, Plan, Stock, loom, quantity};
use physics::network::{ElementId, Knobs, Law, Network, Node, Ports, Solver, solve};
use physics::packing::pack;
use std::hint::black_box;
use std::time::Duration;

/// A plan walked to its end, to measure any stage from.
struct Walked {
    name: String,
    text: String,
    plan: Plan,
    loom: Loom,
    habits: Habits,
    answers: Answers,
    lists: study::Lists,
    /// What proving has solved.
    kept: Kept,
}

impl Walked {
    fn new(name: &str, text: String, stock: &Stock) -> Self {
        let plan = Plan::read(&text).0.expect("a plan without errors");
        let loom = loom::build(&plan, stock).0.expect("a loom");
        let habits = Habits::of(&plan, &loom, stock);
        let answers = study::study(&loom, stock, &habits);
        let lists = study::lists(&loom, stock, &habits, &answers);
        Self {
            name: name.to_owned(),
            text,
            plan,
            loom,
            habits,
            answers,
            lists,
            kept: Kept::default(),
        }
    }

    /// The network of the first state, as it settled.
    fn model(&self) -> &Model {
        self.answers.states[0]
            .settled
            .model
            .as_ref()
            .expect("a settled state")
    }
}

fn walked(stock: &Stock) -> Vec<Walked> {
    let mut all = vec![Walked::new(
        "farm",
        include_str!("../../../examples/farm.toml").to_owned(),
        stock,
    )];
    all.extend([5, 10, 20, 40].map(|n| Walked::new(&format!("{n} circuits"), plan_text(n), stock)));
    all
}

/// The network of a model, every law as it stood when the state had settled.
fn network(model: &Model) -> Network {
    let mut network = Network::new();
    let mut nodes = vec![Node::GROUND];
    nodes.extend((1..model.nodes).map(|_| network.node()));
    for e in &model.elements {
        network.element(nodes[e.a], nodes[e.b], e.law);
    }
    network
}

/// Measures one stage on every plan.
fn stage<T>(c: &mut Criterion, name: &str, all: &[Walked], run: impl Fn(&Walked) -> T) {
    let mut group = c.benchmark_group(name);
    group
        .sample_size(20)
        .measurement_time(Duration::from_secs(3));
    for w in all {
        group.bench_with_input(BenchmarkId::from_parameter(&w.name), w, |b, w| {
            b.iter(|| black_box(run(w)))
        });
    }
    group.finish();
}

/// The next test for somebody who sees that the first load is dead.
fn advised(w: &Walked, stock: &Stock, kept: &Kept) -> Option<Advice> {
    let bench = Bench::new(&w.loom, stock, &w.habits, &w.answers).knowing(kept);
    let evidence = Evidence {
        symptoms: vec![Symptom::Dead(w.loom.circuits[0].loads[0])],
        ..Evidence::default()
    };
    next(&bench, &evidence, &weigh(&bench, &evidence))
}

fn stages(c: &mut Criterion) {
    let stock = Stock::embedded();
    let all = walked(&stock);
    c.bench_function("stock", |b| b.iter(Stock::embedded));
    stage(c, "parse", &all, |w| Plan::read(&w.text));
    stage(c, "expand", &all, |w| loom::build(&w.plan, &stock));
    stage(c, "solve", &all, |w| {
        solve(&network(w.model()), &Knobs::default())
    });
    // Sizing, every state of every switch and supply, and each loss in them.
    stage(c, "study", &all, |w| {
        study::study(&w.loom, &stock, &w.habits)
    });
    // Roughly, and then the best, proved; for the states that size it at first.
    stage(c, "size", &all, |w| {
        study::posed(&w.loom, &stock, &w.habits)
    });
    stage(c, "supply", &all, |w| {
        let warm = quantity::celsius(25.0);
        study::supply(&w.loom, &stock, &w.habits, &w.answers, warm)
    });
    // The next test once a lamp is seen to be dead, everything solved anew; and once more, with what was solved.
    stage(c, "advise", &all, |w| advised(w, &stock, &Kept::default()));
    stage(c, "advise again", &all, |w| advised(w, &stock, &w.kept));
    stage(c, "draw", &all, |w| {
        sheet::circuit(&w.loom, &w.answers, &stock, &Title::default())
    });
    stage(c, "draw the board", &all, |w| {
        sheet::board(&w.loom, &stock, &w.lists, &Title::default())
    });
    stage(c, "draw the board 1:1", &all, |w| {
        let a4 = (297.0, 210.0);
        sheet::board_full_size(&w.loom, &stock, &w.lists, &Title::default(), a4)
    });
}

/// What a few warmer wires do to a network: by a low-rank change of the factor in hand, by factoring anew from the last
/// voltages, and afresh.
fn warmer_wires(c: &mut Criterion) {
    let stock = Stock::embedded();
    for w in walked(&stock) {
        let cold = network(w.model());
        let resistors = cold
            .elements()
            .iter()
            .enumerate()
            .filter_map(|(i, e)| match e.law {
                Law::Resistor { ohms } if ohms > 1e-4 => Some((ElementId(i as u32), ohms)),
                _ => None,
            });
        let wires: Vec<(ElementId, f64)> = resistors.take(5).collect();
        let ids: Vec<ElementId> = wires.iter().map(|w| w.0).collect();
        let mut solver = Solver::new();
        let before = solver.solve(&cold, &Knobs::default()).expect("a solution");
        let ports = Ports::new(&mut solver, &cold, &before, &ids).expect("ports");
        let siemens: Vec<f64> = wires.iter().map(|w| 1.0 / (1.1 * w.1)).collect();
        let mut warm = cold.clone();
        for (id, ohms) in &wires {
            warm.set(*id, Law::Resistor { ohms: 1.1 * ohms });
        }
        let mut group = c.benchmark_group(format!("five warmer wires, {}", w.name));
        group
            .sample_size(20)
            .measurement_time(Duration::from_secs(2));
        let (mut across, mut amps) = (Vec::new(), vec![0.0; ids.len()]);
        group.bench_function("low rank", |b| {
            b.iter(|| ports.amps(black_box(&siemens), &mut across, &mut amps))
        });
        group.bench_function("factored anew", |b| {
            b.iter(|| solver.solve_from(black_box(&warm), &Knobs::default(), &before.volts))
        });
        group.bench_function("afresh", |b| {
            b.iter(|| solve(black_box(&warm), &Knobs::default()))
        });
        group.finish();
    }
}

/// Every fault of the smaller plans.
fn faults(c: &mut Criterion) {
    let stock = Stock::embedded();
    let mut all = walked(&stock);
    all.truncate(3);
    stage(c, "faults", &all, |w| {
        study::tries(
            (&w.loom, &stock),
            &w.habits,
            &w.answers,
            &study::Asked::ALL,
            &|_, _| {},
        )
    });
    stage(c, "protection", &all, |w| {
        study::protection(&w.loom, &stock, &w.habits, &w.answers)
    });
}

/// Forty wires of three sizes drawn up into a bundle.
fn packing(c: &mut Criterion) {
    let radii: Vec<f64> = (0..40).map(|i| [1.0, 1.4, 2.1][i % 3]).collect();
    c.bench_function("packing of 40 wires", |b| {
        b.iter(|| pack(black_box(&radii), 30))
    });
}

criterion_group!(benches, stages, warmer_wires, faults, packing);
criterion_main!(benches);
