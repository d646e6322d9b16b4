//! Files that a command writes: as committed, and none left over from a test.

use super::Outcome;
use super::shell::printed;
use crate::tidy::walk;
use std::path::Path;

/// Tracked files that a command generates; a run must leave them as they were committed.
const GENERATED: [&str; 0] = [];

/// Fails on a generated file that differs from the commit, and on a snapshot that nobody looked at.
pub fn clean(root: &Path) -> Outcome {
    let mut left = changed(root, &GENERATED)?;
    let new = |path: &String| path.ends_with(".snap.new") || path.ends_with(".pending-snap");
    left.extend(walk(root).into_iter().filter(new));
    if left.is_empty() {
        return Ok(());
    }
    Err(format!(
        "these were written and not looked at:\n    {}",
        left.join("\n    ")
    ))
}

/// Those of the files that differ from the last commit.
fn changed(root: &Path, files: &[&str]) -> Result<Vec<String>, String> {
    if files.is_empty() {
        return Ok(Vec::new());
    }
    let words = ["status", "--porcelain", "--"].iter().chain(files).copied();
    let status = printed(root, "git", &words.collect::<Vec<_>>());
    let status = status.ok_or("git status could not be asked")?;
    Ok(status.lines().map(str::to_owned).collect())
}
