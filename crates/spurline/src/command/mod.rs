//! One command, one file.

pub mod check;
pub mod compare;
pub mod draw;
pub mod lists;
pub mod new;
pub mod open;
pub mod pack;
pub mod prove;
pub mod stock;
pub mod supply;
pub mod try_faults;

use crate::Ended;
use crate::args::Writing;
use crate::files::Existing;
use job::Job;
use serde::Serialize;
use std::path::{Path, PathBuf};

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

/// Writes files into a folder, over others only if that is said; gives their paths.
fn write_all(
    folder: &Path,
    replace: bool,
    named: &[(String, Vec<u8>)],
) -> Result<Vec<String>, Ended> {
    let existing = match replace {
        true => Existing::Replaced,
        false => Existing::StaysUntilSaid,
    };
    let paths = crate::files::write_all(folder, named, existing)?;
    Ok(paths.iter().map(|p| p.display().to_string()).collect())
}

/// Writes a command's files into its folder, and tells which.
fn write_into(
    job: &Job,
    how: &Writing,
    usual: &str,
    named: &[(String, Vec<u8>)],
) -> Result<(), Ended> {
    let folder = how.into.clone().unwrap_or_else(|| PathBuf::from(usual));
    let files = write_all(&folder, how.replace, named)?;
    if how.json {
        crate::json::print(&Written {
            files,
            stops: ended(job) == Ended::Stops,
        });
        return Ok(());
    }
    for file in &files {
        anstream::println!("wrote {file}");
    }
    if ended(job) == Ended::Stops {
        crate::show::complain(
            "a finding stops this plan",
            "see `spurline check` before building from these",
        );
    }
    Ok(())
}
