//! What was done at the vehicle: one line for each tick, appended and synced, so that nothing of it is lost. A last line that
//! was torn off is passed over.

use serde::{Deserialize, Serialize};
use std::collections::BTreeSet;
use std::fs::{self, OpenOptions};
use std::io::Write;
use std::path::{Path, PathBuf};
use std::sync::{Mutex, PoisonError};
use std::time::{SystemTime, UNIX_EPOCH};

/// One line.
#[derive(Debug, Serialize, Deserialize)]
struct Line {
    /// Seconds since 1970 by this machine's clock.
    time_s: u64,
    /// What was ticked.
    tick: String,
    /// Whether it is done, or the tick was taken back.
    done: bool,
}

/// The record beside a plan: "farm.record.jsonl".
pub struct Record {
    path: PathBuf,
    writing: Mutex<()>,
}

impl Record {
    /// Of a plan.
    pub fn of(plan: &Path) -> Self {
        Self {
            path: plan.with_extension("record.jsonl"),
            writing: Mutex::new(()),
        }
    }

    /// What is ticked.
    pub fn ticks(&self) -> BTreeSet<String> {
        let text = fs::read_to_string(&self.path).unwrap_or_default();
        let mut done = BTreeSet::new();
        for line in text
            .lines()
            .filter_map(|l| serde_json::from_str::<Line>(l).ok())
        {
            match line.done {
                true => done.insert(line.tick),
                false => done.remove(&line.tick),
            };
        }
        done
    }

    /// Ticks, or takes a tick back.
    ///
    /// # Errors
    /// Why it can't be written.
    pub fn tick(&self, what: &str, done: bool) -> Result<(), String> {
        let _one = self.writing.lock().unwrap_or_else(PoisonError::into_inner);
        let now = SystemTime::now().duration_since(UNIX_EPOCH);
        let line = Line {
            time_s: now.map_or(0, |d| d.as_secs()),
            tick: what.to_owned(),
            done,
        };
        let failed =
            |e: &dyn std::fmt::Display| format!("{} can't be written: {e}", self.path.display());
        let json = serde_json::to_string(&line).map_err(|e| failed(&e))?;
        let torn = fs::read(&self.path).is_ok_and(|b| b.last().is_some_and(|l| *l != b'\n'));
        let begin = if torn { "\n" } else { "" };
        let write = || {
            let mut file = OpenOptions::new()
                .create(true)
                .append(true)
                .open(&self.path)?;
            file.write_all(format!("{begin}{json}\n").as_bytes())?;
            file.sync_all()
        };
        write().map_err(|e| failed(&e))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn ticks_stay_and_a_torn_line_is_passed_over() {
        let folder = tempfile::tempdir().unwrap();
        let plan = folder.path().join("farm.toml");
        let record = Record::of(&plan);
        for (what, done) in [("cut", true), ("crimp", true), ("cut", false)] {
            record.tick(what, done).unwrap();
        }
        assert_eq!(record.ticks().into_iter().collect::<Vec<_>>(), ["crimp"]);
        let path = folder.path().join("farm.record.jsonl");
        let text = fs::read_to_string(&path).unwrap();
        fs::write(&path, &text[..text.len() - 5]).unwrap();
        // The last line said that a tick was taken back, and is lost; what comes after it is not.
        record.tick("label", true).unwrap();
        let done: Vec<String> = Record::of(&plan).ticks().into_iter().collect();
        assert_eq!(done, ["crimp", "cut", "label"]);
    }
}
