//! `cargo xtask ci`: exactly what the CI runs. Takes the root of the workspace, runs one step after
//! another with a heading and its time, and stops at the first that fails. What the tools print passes
//! through untouched.

mod generated;
mod programs;
mod python;
mod shell;

use crate::tidy;
use shell::cargo;
use std::io::Write;
use std::path::Path;
use std::time::{Duration, Instant};

/// What a step gives: nothing, or what went wrong and how to mend it.
type Outcome = Result<(), String>;

/// A step of the run.
struct Step {
    name: &'static str,
    run: fn(&Path) -> Outcome,
    mend: &'static str,
}

/// Every library and binary, which is what is documented anyway. Naming `--examples`, of which there are
/// none, makes cargo count the features of dev-dependencies in, as it does for clippy and tests; without it,
/// 140 libraries are checked once more with other features (2 min 40 s on two cores).
const DOC: &str = "doc --workspace --lib --bins --examples --no-deps --document-private-items";

/// The steps. Checks share what they compile: `clippy` and `doc` want the same metadata of every
/// dependency, `test` links the same profile; none of them names a feature or a target directory, so
/// that typst is compiled once to be checked against and once to be linked: cargo can't do with less.
const STEPS: [Step; 9] = [
    Step {
        name: "outside programs",
        run: programs::install,
        mend: "install what is named above",
    },
    Step {
        name: "outside references",
        run: python::install,
        mend: "see what pip says above; without network, put the packages into target/python-venv by hand",
    },
    Step {
        name: "format",
        run: |root| cargo(root, "fmt --all --check", &[]),
        mend: "cargo fmt --all",
    },
    Step {
        name: "lints",
        run: |root| cargo(root, "clippy --workspace --all-targets -- -D warnings", &[]),
        mend: "mend what clippy says; what a room may not reach is explained in crates/clippy.toml",
    },
    Step {
        name: "tests",
        run: |root| cargo(root, "test --workspace", &[]),
        mend: "see the failures above; a snapshot that is rightly new: cargo insta review",
    },
    Step {
        name: "references by themselves",
        run: python::check,
        mend: "see above: make the data anew with the script, and look at what moved",
    },
    Step {
        name: "docs",
        run: |root| {
            let flags = [("RUSTDOCFLAGS", "-D warnings")];
            cargo(root, DOC, &flags)
        },
        mend: "mend the links and headings that rustdoc names above",
    },
    Step {
        name: "tidy",
        run: |root| {
            tidy::run(root)
                .then_some(())
                .ok_or_else(|| "the house is untidy".into())
        },
        mend: "each line above says how; again with: cargo xtask tidy",
    },
    Step {
        name: "generated files",
        run: generated::clean,
        mend: "look at them, then commit or delete them",
    },
];

/// Runs every step until one fails; gives whether all went well.
pub fn run(root: &Path) -> bool {
    let mut times: Vec<(&str, Duration)> = Vec::new();
    for (i, step) in STEPS.iter().enumerate() {
        say(&format!(
            "\n=== {} of {}: {}",
            i + 1,
            STEPS.len(),
            step.name
        ));
        let start = Instant::now();
        let outcome = (step.run)(root);
        let took = start.elapsed();
        times.push((step.name, took));
        if let Err(what) = outcome {
            say(&summary(&times));
            say(&format!(
                "ci: stopped at “{}”: {what}\n    to mend: {}",
                step.name, step.mend
            ));
            return false;
        }
        say(&format!("--- {}: {}", step.name, shown(took)));
    }
    say(&summary(&times));
    say("ci: every step went well");
    true
}

/// Prints at once, so that headings stand in order with what the tools print.
fn say(text: &str) {
    println!("{text}");
    let _ = std::io::stdout().flush();
}

fn summary(times: &[(&str, Duration)]) -> String {
    let lines = times
        .iter()
        .map(|(name, took)| format!("    {name:<20}{:>12}\n", shown(*took)));
    let all: Duration = times.iter().map(|(_, took)| *took).sum();
    format!(
        "\n=== times\n{}    {:<20}{:>12}",
        lines.collect::<String>(),
        "together",
        shown(all)
    )
}

fn shown(took: Duration) -> String {
    let seconds = took.as_secs_f64();
    if seconds < 60.0 {
        return format!("{seconds:.1} s");
    }
    format!(
        "{:.0} min {:02.0} s",
        (seconds / 60.0).floor(),
        (seconds % 60.0).floor()
    )
}
