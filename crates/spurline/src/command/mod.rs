//! One command, one file.

pub mod check;
pub mod draw;
pub mod new;
pub mod open;
pub mod pack;
pub mod stock;

use crate::Ended;
use job::Job;
use serde::Serialize;
use std::path::PathBuf;

/// How a command ends whose job was worked out: a finding that stops shows in the exit status.
fn ended(job: &Job) -> Ended {
    if job.answers().is_some_and(job::Answers::stops) {
        Ended::Stops
    } else {
        Ended::Well
    }
}

/// `--json` of the commands that write files.
#[derive(Serialize)]
struct Written {
    files: Vec<String>,
    stops: bool,
}

/// Tells which files were written.
fn tell_written(job: &Job, files: &[PathBuf], as_json: bool) {
    if as_json {
        crate::json::print(&Written {
            files: files.iter().map(|f| f.display().to_string()).collect(),
            stops: ended(job) == Ended::Stops,
        });
        return;
    }
    for f in files {
        anstream::println!("wrote {}", f.display());
    }
    if ended(job) == Ended::Stops {
        crate::show::complain(
            "a finding stops this plan",
            "see `spurline check` before building from these",
        );
    }
}
