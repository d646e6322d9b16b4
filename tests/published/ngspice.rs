//! The whole network against another simulator: decks of the states of every example, and of plans drawn
//! by lot with a fixed seed, are run by ngspice, and every node's voltage is compared.

use super::lot::{Lot, drawn};
use crate::walk::Walk;
use std::collections::BTreeMap;
use std::path::Path;
use std::process::Command;

/// Allowed distance: a thousandth of the voltage, and no less than a fifth of a millivolt.
const PART: f64 = 1e-3;
const FLOOR_V: f64 = 2e-4;
/// Of the states that did not size the loom, every so many are compared.
const OTHERS: usize = 9;

/// Runs a deck and reads the voltages that it prints, by node; none where it finds no answer.
fn simulate(folder: &Path, name: &str, deck: &str) -> BTreeMap<usize, f64> {
    let text = ngspice(folder, name, deck);
    text.lines().filter_map(voltage).collect()
}

/// What ngspice prints of a deck.
fn ngspice(folder: &Path, name: &str, deck: &str) -> String {
    let file = folder.join(format!("{name}.cir"));
    std::fs::write(&file, deck).unwrap_or_else(|e| panic!("{}: {e}", file.display()));
    let run = Command::new("ngspice").arg("-b").arg(&file).output();
    let out = run.unwrap_or_else(|e| panic!("ngspice can't be run ({e}): it is Debian's package “ngspice”, and `cargo xtask ci` installs it"));
    String::from_utf8_lossy(&out.stdout).into_owned()
}

/// Runs a deck in a folder of its own, and reads what it measures: "p1 = 1.234e+00".
pub(crate) fn run_deck(name: &str, deck: &str) -> BTreeMap<String, f64> {
    let folder = tempfile::tempdir().unwrap_or_else(|e| panic!("a folder for {name}: {e}"));
    let text = ngspice(folder.path(), name, deck);
    let measured = |line: &str| {
        let (name, value) = line.split_once('=')?;
        let value = value.split_whitespace().next()?.parse().ok()?;
        Some((name.trim().to_owned(), value))
    };
    text.lines().filter_map(measured).collect()
}

/// The deck with its starting point to the microvolt. At the corner of an alternator's limit a tenth
/// of a volt is fifty amperes, and ngspice runs away from there; what it then finds is still its own.
fn started_near(deck: &str, volts: &BTreeMap<usize, f64>) -> String {
    let plain: String = deck
        .lines()
        .filter(|l| !l.starts_with(".nodeset"))
        .map(|l| format!("{l}\n"))
        .collect();
    let starts: String = volts
        .iter()
        .map(|(node, v)| format!(".nodeset v({node})={v:.6}\n"))
        .collect();
    plain.replacen(".op\n", &format!("{starts}.op\n"), 1)
}

/// "  V(9)      1.412343e+01"
fn voltage(line: &str) -> Option<(usize, f64)> {
    let mut words = line.split_whitespace();
    let node = words
        .next()?
        .strip_prefix("V(")?
        .strip_suffix(')')?
        .parse()
        .ok()?;
    let volts = words.next()?.parse().ok()?;
    words.next().is_none().then_some((node, volts))
}

/// What comparing came to.
#[derive(Default)]
struct Tally {
    states: usize,
    nodes: usize,
    /// States that ngspice needed a nearer start for.
    helped: usize,
    /// The worst distance, as a part of what is allowed.
    worst: f64,
}

impl Tally {
    /// Compares every node of every state of a plan.
    fn compare(&mut self, folder: &Path, name: &str, plan: &str) {
        let walk = Walk::of(plan);
        let answers = walk.answers();
        // Those that sized the loom, and every so many of the others.
        let others = (answers.sized..answers.states.len()).step_by(OTHERS);
        for i in (0..answers.sized).chain(others) {
            let state = walk
                .job()
                .network(i)
                .unwrap_or_else(|| panic!("{name}: no network of state {i}"));
            let settled = &state.settled;
            if !settled.chatter.is_empty() {
                continue;
            }
            assert_eq!(settled.failure, None, "{name}, {}", state.state.name);
            let model = settled
                .model
                .as_ref()
                .unwrap_or_else(|| panic!("{name}: no model of state {i}"));
            let mut ours: BTreeMap<usize, f64> = BTreeMap::new();
            for (pin, node) in model.node_of_pin.iter().enumerate() {
                if let (Some(node @ 1..), Some(volts)) = (node, settled.volts[pin]) {
                    ours.insert(*node, volts);
                }
            }
            let deck = walk
                .job()
                .deck(i)
                .unwrap_or_else(|| panic!("{name}: no deck of state {i}"));
            let mut theirs = simulate(folder, &format!("{name}-{i}"), &deck);
            if theirs.is_empty() {
                self.helped += 1;
                theirs = simulate(
                    folder,
                    &format!("{name}-{i}-near"),
                    &started_near(&deck, &ours),
                );
            }
            self.states += 1;
            self.judge(&format!("{name}, {}", state.state.name), &ours, &theirs);
        }
    }

    fn judge(&mut self, name: &str, ours: &BTreeMap<usize, f64>, theirs: &BTreeMap<usize, f64>) {
        for (node, ours) in ours {
            let Some(theirs) = theirs.get(node) else {
                panic!("{name}: ngspice gives no node {node}")
            };
            let off = (ours - theirs).abs() / (PART * theirs.abs()).max(FLOOR_V);
            assert!(
                off <= 1.0,
                "{name}: node {node} is {ours} V here and {theirs} V in ngspice"
            );
            self.nodes += 1;
            self.worst = self.worst.max(off);
        }
    }
}

fn compare_all(plans: &[(String, String)]) {
    let folder = tempfile::tempdir().unwrap_or_else(|e| panic!("no folder for decks: {e}"));
    let mut tally = Tally::default();
    for (name, plan) in plans {
        tally.compare(folder.path(), name, plan);
    }
    let Tally {
        states,
        nodes,
        helped,
        worst,
    } = tally;
    println!(
        "{} plans, {states} states, {nodes} nodes, the worst at {:.1} % of what is allowed; {helped} started nearer",
        plans.len(),
        worst * 100.0
    );
    assert!(nodes > states * 8, "only {nodes} nodes were compared");
    assert!(
        helped * 4 <= states,
        "{helped} of {states} decks don't run as they are written"
    );
}

#[test]
fn every_example() {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("../examples");
    let entries =
        std::fs::read_dir(&folder).unwrap_or_else(|e| panic!("{}: {e}", folder.display()));
    let mut plans: Vec<(String, String)> = Vec::new();
    for entry in entries {
        let path = entry.unwrap_or_else(|e| panic!("{e}")).path();
        if path.extension().is_some_and(|e| e == "toml") {
            let text = std::fs::read_to_string(&path)
                .unwrap_or_else(|e| panic!("{}: {e}", path.display()));
            plans.push((
                path.file_stem()
                    .unwrap_or_default()
                    .to_string_lossy()
                    .into_owned(),
                text,
            ));
        }
    }
    plans.push((
        "every_form".into(),
        include_str!("plans/every_form.toml").into(),
    ));
    plans.sort();
    assert!(plans.len() >= 2, "no examples in {}", folder.display());
    compare_all(&plans);
}

#[test]
fn plans_drawn_by_lot() {
    let mut lot = Lot(1925);
    let plans: Vec<(String, String)> = (0..24)
        .map(|n| (format!("drawn {n}"), drawn(&mut lot)))
        .collect();
    compare_all(&plans);
}

#[test]
fn only_voltages_are_read() {
    assert_eq!(voltage("\tV(12)      -1.5e-3"), Some((12, -1.5e-3)));
    assert_eq!(voltage("Index   V(1)            V(2)"), None);
    assert_eq!(voltage("V(x)  1.0"), None);
}
