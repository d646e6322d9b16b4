//! Sizing as a whole-numbered problem, against `scipy.optimize.milp` (HiGHS), which `cargo xtask ci` installs. The looms
//! are generated; the problems are those that stood when their answer held in the full model, cuts and all.

use bench::plan_text;
use job::study::problem::{Posed, Step};
use job::study::{self, Habits};
use job::{Plan, Stock, loom};
use std::fmt::Write as _;
use std::io::Write as _;
use std::path::Path;
use std::process::{Command, Stdio};

/// Sizes of the generated plans, in circuits.
const CIRCUITS: std::ops::Range<usize> = 3..23;

fn posed(circuits: usize, stock: &Stock) -> Posed {
    let plan = Plan::read(&plan_text(circuits)).0.expect("a plan");
    let loom = loom::build(&plan, stock).0.expect("a loom");
    study::posed(&loom, stock, &Habits::of(&plan, &loom, stock)).expect("sizes that hold")
}

fn list<T>(all: &[T], each: impl Fn(&T) -> String) -> String {
    let each: Vec<String> = all.iter().map(each).collect();
    format!("[{}]", each.join(","))
}

/// As the script reads it.
fn json(p: &Posed) -> String {
    let p = &p.program;
    let figures = |all: &Vec<f64>| list(all, |f| format!("{f:?}"));
    let step = |s: &Step| match s {
        Step::Up(t, k) => format!("[true,{t},{k}]"),
        Step::Down(t, k) => format!("[false,{t},{k}]"),
    };
    let pair = |(t, k): &(usize, usize)| format!("[{t},{k}]");
    let mut text = String::from("{");
    let _ = write!(text, "\"things\":{},", list(&p.things, figures));
    let rows = list(&p.rows, |row| {
        let weights = list(&row.weights, |(t, w)| format!("[{t},{}]", figures(w)));
        format!("{{\"weights\":{weights},\"most\":{:?}}}", row.most)
    });
    let _ = write!(text, "\"rows\":{rows},");
    let needs = list(&p.needs, |n| {
        format!("[{},{},{},{}]", n.of.0, n.of.1, n.asks.0, n.asks.1)
    });
    let _ = write!(text, "\"needs\":{needs},");
    let _ = write!(
        text,
        "\"cuts\":{},",
        list(&p.cuts, |cut| list(&cut.0, step))
    );
    let kinds = list(&p.kinds, |kind| {
        let options = list(&kind.options, pair);
        format!("{{\"cost\":{:?},\"options\":{options}}}", kind.cost)
    });
    let _ = write!(text, "\"kinds\":{kinds}}}");
    text
}

/// What the script finds for each problem.
fn outside(problems: &str) -> Vec<f64> {
    let root = Path::new(env!("CARGO_MANIFEST_DIR"))
        .parent()
        .expect("the workspace");
    let python = root.join("target/python-venv/bin/python");
    let script = root.join("tests/published/milp/choose.py");
    let mut child = Command::new(&python)
        .arg(script)
        .stdin(Stdio::piped())
        .stdout(Stdio::piped())
        .spawn()
        .unwrap_or_else(|e| panic!("{}: {e}; `cargo xtask ci` installs it", python.display()));
    let mut input = child.stdin.take().expect("its input");
    input
        .write_all(problems.as_bytes())
        .expect("problems handed over");
    drop(input);
    let output = child.wait_with_output().expect("the script");
    assert!(output.status.success(), "the script failed");
    let text = String::from_utf8(output.stdout).expect("text");
    let lines = text.lines().filter_map(|line| line.strip_prefix("least "));
    lines
        .map(|figure| {
            figure
                .parse()
                .unwrap_or_else(|_| panic!("“{figure}” is no figure"))
        })
        .collect()
}

#[test]
fn the_least_is_what_another_solver_finds() {
    let stock = Stock::embedded();
    let ours: Vec<Posed> = CIRCUITS.map(|n| posed(n, &stock)).collect();
    let problems = list(&ours, json);
    let theirs = outside(&problems);
    assert_eq!((ours.len(), theirs.len()), (20, 20));
    for (n, (ours, theirs)) in CIRCUITS.zip(ours.iter().zip(&theirs)) {
        assert!(ours.proved, "{n} circuits");
        let off = (ours.cost - theirs).abs() / theirs;
        assert!(
            off < 1e-6,
            "{n} circuits: {} here, {theirs} there",
            ours.cost
        );
    }
}
