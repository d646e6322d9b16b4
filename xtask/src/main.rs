//! The chores of the workspace. Takes a word (`ci`, `tidy`), does that chore from the root of the
//! workspace, and fails when it does.

mod ci;
mod tidy;

use std::path::{Path, PathBuf};
use std::process::ExitCode;

const HELP: &str = "\
cargo xtask ci      everything that the CI runs, in its order
cargo xtask tidy    the rules of the house that no compiler holds: order of the rooms, budget, words
";

fn main() -> ExitCode {
    let mut words = std::env::args().skip(1);
    let well = match (words.next().as_deref(), words.next()) {
        (Some("ci"), None) => ci::run(&root()),
        (Some("tidy"), None) => tidy::run(&root()),
        (Some("help" | "--help" | "-h"), None) => {
            print!("{HELP}");
            true
        }
        _ => {
            eprint!("no such chore; there are\n{HELP}");
            return ExitCode::from(2);
        }
    };
    if well {
        ExitCode::SUCCESS
    } else {
        ExitCode::FAILURE
    }
}

/// The root of the workspace: the directory above this package.
fn root() -> PathBuf {
    let here = Path::new(env!("CARGO_MANIFEST_DIR"));
    here.parent().unwrap_or(here).to_owned()
}
