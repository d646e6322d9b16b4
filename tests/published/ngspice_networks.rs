//! Bare networks against another simulator: circuits such as a vehicle's, drawn with a fixed seed, are
//! solved here and by ngspice, and every node's voltage is compared. [`drawn`] says what they look
//! like, [`deck`] writes every law once more in ngspice's words.

mod deck;
mod drawn;

use deck::deck;
use drawn::{Drawn, networks};
use physics::network::{Knobs, Law, Solution, Solver, solve};
use proptest::strategy::{Strategy, ValueTree};
use proptest::test_runner::TestRunner;
use std::collections::BTreeMap;
use std::path::Path;
use std::process::Command;

/// How many are drawn.
const NETWORKS: usize = 32;
/// Allowed distance: a thousandth of the voltage, and no less than a fifth of a millivolt, below what a
/// meter shows.
const PART: f64 = 1e-3;
const FLOOR_V: f64 = 2e-4;

/// What comparing came to, and what there was to compare.
#[derive(Debug, Default)]
struct Tally {
    nodes: usize,
    /// Networks that ngspice found no answer of from a guess.
    helped: usize,
    /// Alternators that give all they can, and others.
    at_limit: usize,
    within_limit: usize,
    motors: usize,
    /// Drivers that get less than three quarters of what the supplies hold, and still work.
    starved: usize,
    /// The worst distance, as a part of what is allowed.
    worst: f64,
}

impl Tally {
    fn compare(&mut self, folder: &Path, number: usize, drawn: &Drawn) {
        let ours = solved(drawn);
        let mut theirs = simulate(folder, number, &deck(drawn, None));
        if theirs.is_empty() {
            self.helped += 1;
            theirs = simulate(folder, number, &deck(drawn, Some(&ours.volts)));
        }
        for (node, ours) in ours.volts.iter().enumerate().skip(1) {
            let Some(theirs) = theirs.get(&node) else {
                panic!("ngspice gives no node {node} of network {number}: {drawn:?}")
            };
            let off = (ours - theirs).abs() / (PART * theirs.abs()).max(FLOOR_V);
            assert!(
                off <= 1.0,
                "network {number}: node {node} is {ours} V here and {theirs} V in ngspice: {drawn:?}"
            );
            self.nodes += 1;
            self.worst = self.worst.max(off);
        }
        self.count(drawn, &ours);
    }

    /// Counts what the networks are meant to have.
    fn count(&mut self, drawn: &Drawn, solution: &Solution) {
        for (element, amps) in drawn.network.elements().iter().zip(&solution.amps) {
            self.motors += usize::from(matches!(element.law, Law::Motor { .. }));
            // A full battery is written by the same law, below 13 V.
            if let Law::Regulated {
                volts: 13.0..,
                limit_amps,
                ..
            } = element.law
            {
                if -amps >= 0.999 * limit_amps {
                    self.at_limit += 1;
                } else {
                    self.within_limit += 1;
                }
            }
        }
        for [high, low] in &drawn.starved {
            let volts = solution.volts[high.index()] - solution.volts[low.index()];
            self.starved += usize::from(volts > 6.0 && volts < 0.75 * solution.volts[1]);
        }
    }
}

/// Our answer, which must be the only one: from everything dead it is the same.
fn solved(drawn: &Drawn) -> Solution {
    let knobs = Knobs::default();
    let solution = solve(&drawn.network, &knobs).unwrap_or_else(|e| panic!("{e}: {drawn:?}"));
    let dead = vec![0.0; drawn.network.nodes()];
    let from_dead = Solver::new().solve_from(&drawn.network, &knobs, &dead);
    let from_dead = from_dead.unwrap_or_else(|e| panic!("{e}: {drawn:?}"));
    for (a, b) in solution.volts.iter().zip(&from_dead.volts) {
        assert!(
            (a - b).abs() < 1e-6,
            "two answers: {a} V and {b} V: {drawn:?}"
        );
    }
    solution
}

/// Runs a deck and reads the voltages that it prints, by node; none where it finds no answer.
fn simulate(folder: &Path, number: usize, deck: &str) -> BTreeMap<usize, f64> {
    let file = folder.join(format!("{number}.cir"));
    std::fs::write(&file, deck).unwrap_or_else(|e| panic!("{}: {e}", file.display()));
    let run = Command::new("ngspice").arg("-b").arg(&file).output();
    let out = run.unwrap_or_else(|e| {
        panic!("ngspice can't be run ({e}): it is Debian's package “ngspice”, and `cargo xtask ci` installs it")
    });
    let text = String::from_utf8_lossy(&out.stdout);
    text.lines().filter_map(voltage).collect()
}

/// “V(9)      1.412343e+01”
fn voltage(line: &str) -> Option<(usize, f64)> {
    let (name, volts) = line.trim().split_once(char::is_whitespace)?;
    let node = name.strip_prefix("V(")?.strip_suffix(')')?;
    Some((node.parse().ok()?, volts.trim().parse().ok()?))
}

/// Whether a network is such as it should be.
fn assert_like_a_vehicle(drawn: &Drawn) {
    let network = &drawn.network;
    assert!(
        (8..=60).contains(&network.nodes()),
        "{} nodes",
        network.nodes()
    );
    let has = |is: fn(&Law) -> bool| network.elements().iter().any(|e| is(&e.law));
    assert!(has(|law| matches!(law, Law::ConstantPower { .. })));
    assert!(has(|law| matches!(law, Law::Tungsten { .. })));
    assert!(has(|law| matches!(law, Law::Open)));
    let paths = network
        .elements()
        .iter()
        .filter(|e| !matches!(e.law, Law::Open | Law::Current { .. }));
    assert!(paths.count() > network.nodes(), "a tree has no mesh");
}

#[test]
fn every_node_of_networks_drawn_by_lot() {
    let folder = tempfile::tempdir().unwrap_or_else(|e| panic!("no folder for decks: {e}"));
    let mut runner = TestRunner::deterministic();
    let mut tally = Tally::default();
    for number in 0..NETWORKS {
        let drawn = networks().new_tree(&mut runner);
        let drawn = drawn
            .unwrap_or_else(|e| panic!("nothing drawn: {e}"))
            .current();
        assert_like_a_vehicle(&drawn);
        tally.compare(folder.path(), number, &drawn);
    }
    println!("{NETWORKS} networks, {tally:?}");
    assert!(tally.at_limit >= 5 && tally.within_limit >= 5, "{tally:?}");
    assert!(tally.starved >= 5 && tally.motors >= 10, "{tally:?}");
    assert!(tally.helped * 4 <= NETWORKS, "{tally:?}");
}

#[test]
fn only_voltages_are_read() {
    assert_eq!(voltage("\tV(12)      -1.5e-3"), Some((12, -1.5e-3)));
    assert_eq!(voltage("Index   V(1)            V(2)"), None);
    assert_eq!(voltage("V(x)  1.0"), None);
}
