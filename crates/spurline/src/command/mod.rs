//! One command, one file.

pub mod check;
pub mod compare;
pub mod draw;
pub mod lists;
pub mod new;
pub mod open;
pub mod pack;
pub mod stock;
pub mod supply;
pub mod try_faults;

use crate::Ended;
use crate::args::Writing;
use crate::files::Existing;
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

/// Writes a command's files into its folder, and tells which.
fn write_into(
    job: &Job,
    how: &Writing,
    usual: &str,
    named: &[(String, Vec<u8>)],
) -> Result<(), Ended> {
    let folder = how.into.clone().unwrap_or_else(|| PathBuf::from(usual));
    let existing = if how.replace {
        Existing::Replaced
    } else {
        Existing::StaysUntilSaid
    };
    let files = crate::files::write_all(&folder, named, existing)?;
    if how.json {
        crate::json::print(&Written {
            files: files.iter().map(|f| f.display().to_string()).collect(),
            stops: ended(job) == Ended::Stops,
        });
        return Ok(());
    }
    for f in &files {
        anstream::println!("wrote {}", f.display());
    }
    if ended(job) == Ended::Stops {
        crate::show::complain(
            "a finding stops this plan",
            "see `spurline check` before building from these",
        );
    }
    Ok(())
}
