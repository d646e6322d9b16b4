//! What was done and read at the vehicle: one line for each tick, reading or note, appended and synced, so that nothing of it
//! is lost. A last line that was torn off is passed over.

use job::record::{Entry, Noted};
use serde::{Deserialize, Serialize};
use std::fs::{self, OpenOptions};
use std::io::Write;
use std::path::{Path, PathBuf};
use std::sync::{Mutex, PoisonError};
use std::time::{SystemTime, UNIX_EPOCH};

/// One line, as it is written.
#[derive(Debug, Default, Serialize, Deserialize)]
#[serde(default)]
struct Line {
    /// Seconds since 1970 by this machine's clock.
    time_s: u64,
    #[serde(skip_serializing_if = "String::is_empty")]
    who: String,
    /// Which version of the plan.
    #[serde(skip_serializing_if = "String::is_empty")]
    plan: String,
    #[serde(skip_serializing_if = "Option::is_none")]
    tick: Option<String>,
    #[serde(skip_serializing_if = "Option::is_none")]
    done: Option<bool>,
    #[serde(skip_serializing_if = "Option::is_none")]
    test: Option<String>,
    /// In the unit of the test.
    #[serde(skip_serializing_if = "Option::is_none")]
    read: Option<f64>,
    #[serde(skip_serializing_if = "Option::is_none")]
    seen: Option<String>,
    #[serde(skip_serializing_if = "Option::is_none")]
    note: Option<String>,
    #[serde(skip_serializing_if = "Option::is_none")]
    built: Option<String>,
    #[serde(skip_serializing_if = "Option::is_none")]
    was: Option<String>,
    #[serde(skip_serializing_if = "Option::is_none")]
    is: Option<String>,
    #[serde(skip_serializing_if = "Option::is_none")]
    afresh: Option<bool>,
}

impl Line {
    fn of(entry: Entry) -> Self {
        let line = Self {
            time_s: entry.time_s,
            who: entry.who,
            plan: entry.plan,
            ..Self::default()
        };
        match entry.noted {
            Noted::Tick { what, done } => Self {
                tick: Some(what),
                done: Some(done),
                ..line
            },
            Noted::Reading { test, value } => Self {
                test: Some(test),
                read: Some(value),
                ..line
            },
            Noted::Seen(seen) => Self {
                seen: Some(seen),
                ..line
            },
            Noted::Note(note) => Self {
                note: Some(note),
                ..line
            },
            Noted::Built { path, was, is } => Self {
                built: Some(path),
                was: Some(was),
                is: Some(is),
                ..line
            },
            Noted::Fresh => Self {
                afresh: Some(true),
                ..line
            },
        }
    }

    /// What it says; none of what a later program writes, and this one does not know.
    fn entry(self) -> Option<Entry> {
        let noted = match self {
            Self {
                tick: Some(what),
                done,
                ..
            } => Noted::Tick {
                what,
                done: done.unwrap_or(true),
            },
            Self {
                test: Some(test),
                read: Some(value),
                ..
            } => Noted::Reading { test, value },
            Self {
                seen: Some(seen), ..
            } => Noted::Seen(seen),
            Self {
                note: Some(note), ..
            } => Noted::Note(note),
            Self {
                built: Some(path),
                was,
                is,
                ..
            } => Noted::Built {
                path,
                was: was.unwrap_or_default(),
                is: is.unwrap_or_default(),
            },
            Self {
                afresh: Some(true), ..
            } => Noted::Fresh,
            _ => return None,
        };
        Some(Entry {
            time_s: self.time_s,
            who: self.who,
            plan: self.plan,
            noted,
        })
    }
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

    /// Of a vehicle to practise on, which is no real one: "farm.practise-7.jsonl".
    pub fn of_practice(plan: &Path, number: u64) -> Self {
        Self {
            path: plan.with_extension(format!("practise-{number}.jsonl")),
            writing: Mutex::new(()),
        }
    }

    /// Everything in it, in order.
    pub fn entries(&self) -> Vec<Entry> {
        // Bytes that are no text spoil their own line alone.
        let bytes = fs::read(&self.path).unwrap_or_default();
        let text = String::from_utf8_lossy(&bytes);
        let lines = text
            .lines()
            .filter_map(|l| serde_json::from_str::<Line>(l).ok());
        lines.filter_map(Line::entry).collect()
    }

    /// Notes something, now.
    ///
    /// # Errors
    /// Why it can't be written.
    pub fn note(&self, noted: Noted, who: &str, plan: &str) -> Result<(), String> {
        let _one = self.writing.lock().unwrap_or_else(PoisonError::into_inner);
        let now = SystemTime::now().duration_since(UNIX_EPOCH);
        let line = Line::of(Entry {
            time_s: now.map_or(0, |d| d.as_secs()),
            who: who.to_owned(),
            plan: job::record::fingerprint(plan),
            noted,
        });
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
    use job::record::ticks;

    fn tick(what: &str, done: bool) -> Noted {
        let what = what.to_owned();
        Noted::Tick { what, done }
    }

    #[test]
    fn what_is_noted_stays_and_a_torn_line_is_passed_over() {
        let folder = tempfile::tempdir().unwrap();
        let plan = folder.path().join("farm.toml");
        let record = Record::of(&plan);
        for (what, done) in [("cut", true), ("crimp", true), ("cut", false)] {
            record.note(tick(what, done), "", "").unwrap();
        }
        let done = |r: &Record| ticks(&r.entries()).into_iter().collect::<Vec<_>>();
        assert_eq!(done(&record), ["crimp"]);
        let path = folder.path().join("farm.record.jsonl");
        let text = fs::read_to_string(&path).unwrap();
        fs::write(&path, &text[..text.len() - 5]).unwrap();
        // The last line said that a tick was taken back, and is lost; what comes after it is not.
        record.note(tick("label", true), "", "").unwrap();
        assert_eq!(done(&Record::of(&plan)), ["crimp", "cut", "label"]);
    }

    #[test]
    fn every_kind_of_entry_is_read_as_it_was_written() {
        let folder = tempfile::tempdir().unwrap();
        let record = Record::of(&folder.path().join("farm.toml"));
        let noted = [
            tick("cut", true),
            Noted::Reading {
                test: "parked, switches off | V G1:30 G1:31".into(),
                value: 12.64,
            },
            Noted::Seen("dead E1.1".into()),
            Noted::Note("rain, 8 °C".into()),
            Noted::Built {
                path: "wire.\"W1.3\".size".into(),
                was: String::new(),
                is: "4 mm²".into(),
            },
            Noted::Fresh,
        ];
        for n in &noted {
            record.note(n.clone(), "Kim", "plan").unwrap();
        }
        let read = record.entries();
        assert!(
            read.iter()
                .all(|e| e.who == "Kim" && e.plan == job::record::fingerprint("plan"))
        );
        assert_eq!(read.into_iter().map(|e| e.noted).collect::<Vec<_>>(), noted);
    }
}
