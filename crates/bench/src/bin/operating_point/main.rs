//! One operating point of one network, measured here and written out for ngspice to find as well.
//! `benches/operating_point.sh` runs both and compares. Takes a supply (`key-on`, `charging`, `driving`)
//! and what to do:
//!
//! | words | what |
//! |---|---|
//! | `deck 40` | prints the deck, forty operating points in one process |
//! | `near 40` | the same, started at the answer to a millivolt |
//! | `time` | prints how many nodes there are, and microseconds an operating point |
//! | `compare` | reads what ngspice printed, compares every voltage, fails beyond 0.1 % |

mod deck;
mod network;

use network::{Measured, Supply};
use physics::network::{Knobs, Solution, Solver, solve};
use std::hint::black_box;
use std::io::Read;
use std::process::ExitCode;
use std::time::Instant;

/// Operating points in a batch, and batches of each way: a second for all.
const BATCH: u32 = 200;
const BATCHES: usize = 41;
/// Allowed distance of voltages: a thousandth, and no less than a fifth of a millivolt.
const PART: f64 = 1e-3;
const FLOOR_V: f64 = 2e-4;

const HELP: &str = "operating_point key-on|charging|driving deck TIMES|near TIMES|time|compare";

fn main() -> ExitCode {
    let words: Vec<String> = std::env::args().skip(1).collect();
    let words: Vec<&str> = words.iter().map(String::as_str).collect();
    let supply = Supply::ALL
        .iter()
        .find(|(name, _)| words.first() == Some(name));
    let (Some((_, supply)), Some(rest)) = (supply, words.get(1..)) else {
        eprintln!("{HELP}");
        return ExitCode::from(2);
    };
    let measured = Measured::new(*supply);
    let times = |text: &str| text.parse().unwrap_or(1);
    match rest {
        ["deck", n] => print!("{}", deck::deck(&measured.network, None, times(n))),
        ["near", n] => {
            let volts = settled(&measured).volts;
            print!("{}", deck::deck(&measured.network, Some(&volts), times(n)));
        }
        ["time"] => time(measured),
        ["compare"] => return compare(&settled(&measured).volts),
        _ => {
            eprintln!("{HELP}");
            return ExitCode::from(2);
        }
    }
    ExitCode::SUCCESS
}

fn settled(measured: &Measured) -> Solution {
    solve(&measured.network, &Knobs::default()).unwrap_or_else(|failure| panic!("{failure}"))
}

/// Times three ways of solving, turn by turn, each step with another lamp: from nothing with the shape
/// known, from the last answer, and a network never seen before. The least of all batches counts: what
/// else the machine does only adds.
fn time(mut measured: Measured) {
    let knobs = Knobs::default();
    println!("nodes {}", measured.network.nodes());
    let mut solver = Solver::new();
    let mut last = settled(&measured).volts;
    let mut micros: [Vec<f64>; 3] = Default::default();
    for _ in 0..BATCHES {
        micros[0].push(batch(&mut measured, |m| {
            black_box(solver.solve(&m.network, &knobs)).expect("it has an answer");
        }));
        micros[1].push(batch(&mut measured, |m| {
            let solution = solver.solve_from(&m.network, &knobs, &last);
            last = solution.expect("it has an answer").volts;
        }));
        micros[2].push(batch(&mut measured, |m| {
            black_box(solve(&m.network, &knobs)).expect("it has an answer");
        }));
    }
    for (name, micros) in ["fresh", "warm", "unknown"].into_iter().zip(micros) {
        let least = micros.iter().copied().fold(f64::INFINITY, f64::min);
        println!("{name} {least:.2}");
    }
}

/// Microseconds for each step of a batch.
fn batch(measured: &mut Measured, mut solve: impl FnMut(&Measured)) -> f64 {
    let start = Instant::now();
    for step in 0..BATCH {
        measured.step(step);
        solve(measured);
    }
    start.elapsed().as_secs_f64() * 1e6 / f64::from(BATCH)
}

/// Compares with what ngspice printed, from standard input.
fn compare(ours: &[f64]) -> ExitCode {
    let mut text = String::new();
    if let Err(e) = std::io::stdin().read_to_string(&mut text) {
        eprintln!("what ngspice printed can't be read: {e}");
        return ExitCode::FAILURE;
    }
    let theirs = deck::printed(&text);
    let mut worst = (0.0, 0);
    for (node, ours) in ours.iter().enumerate().skip(1) {
        let Some(theirs) = theirs.get(&node) else {
            eprintln!("ngspice gives no node {node}: it found no answer");
            return ExitCode::FAILURE;
        };
        let off = (ours - theirs).abs() / (PART * theirs.abs()).max(FLOOR_V);
        if off > worst.0 || off.is_nan() {
            worst = (off, node);
        }
    }
    println!(
        "{} nodes compared, the worst, {}, at {:.2} % of what is allowed",
        ours.len() - 1,
        worst.1,
        worst.0 * 100.0
    );
    if worst.0 <= 1.0 {
        ExitCode::SUCCESS
    } else {
        ExitCode::FAILURE
    }
}
