//! The plan's file with what it was before: every text that is replaced is kept beside it, the last hundred of them.

use crate::args::Texts;
use crate::files;
use crate::record::Record;
use job::record::{Entry, Noted};
use page::{Refused, Shelf, Stroke, Version};
use std::io::Error;
use std::path::{Path, PathBuf};
use std::sync::{Mutex, PoisonError};
use std::{fs, io};

/// So many are kept.
const KEPT: usize = 100;

/// A plan's file, its stock files, and its folder of versions.
pub struct Files {
    texts: Texts,
    /// What is done at the vehicle.
    record: Record,
    /// One writer at a time.
    writing: Mutex<()>,
}

impl Files {
    /// What a program that was killed while it wrote has left is cleared away: it never was the plan.
    pub fn new(texts: Texts) -> Self {
        let here = Self {
            record: Record::of(&texts.plan),
            texts,
            writing: Mutex::new(()),
        };
        // Whoever writes holds the others off: what lies there meanwhile is nobody's.
        if !here.half_written().is_empty()
            && let Ok(_alone) = here.locked()
        {
            for path in here.half_written() {
                let _ = fs::remove_file(path);
            }
        }
        here
    }

    /// Files beside the plan and among its versions that were never finished, or are being written.
    fn half_written(&self) -> Vec<PathBuf> {
        let name = |e: &fs::DirEntry| e.file_name().to_string_lossy().into_owned();
        let of = |folder: &Path, mine: &dyn Fn(&str) -> bool| -> Vec<PathBuf> {
            let entries = fs::read_dir(folder).into_iter().flatten().flatten();
            let unfinished = entries.filter(|e| mine(&name(e)));
            unfinished.map(|e| e.path()).collect()
        };
        // What other plans in the folder are becoming is not this one's.
        let plan = &self.texts.plan;
        let mut found = of(files::folder_of(plan), &|n| files::is_under_way(n, plan));
        found.extend(of(&self.folder(), &|n| n.starts_with('.')));
        found
    }

    /// The folder beside the plan: "farm.toml.before".
    fn folder(&self) -> PathBuf {
        let mut name = self.texts.plan.file_name().unwrap_or_default().to_owned();
        name.push(".before");
        self.texts.plan.with_file_name(name)
    }

    /// The numbers of what is kept, the newest first.
    fn numbers(&self) -> Vec<u32> {
        let entries = fs::read_dir(self.folder()).into_iter().flatten().flatten();
        let number = |e: fs::DirEntry| {
            let path = e.path();
            let number = path.file_stem()?.to_str()?.parse().ok()?;
            (path == self.path_of(number)).then_some(number)
        };
        let mut numbers: Vec<u32> = entries.filter_map(number).collect();
        numbers.sort_unstable_by(|a, b| b.cmp(a));
        numbers
    }

    fn path_of(&self, number: u32) -> PathBuf {
        self.folder().join(format!("{number:06}.toml"))
    }

    /// Holds other programs off until it is dropped.
    fn locked(&self) -> io::Result<fs::File> {
        fs::create_dir_all(self.folder())?;
        let lock = fs::File::create(self.folder().join("lock"))?;
        lock.lock()?;
        Ok(lock)
    }

    /// Puts a text away, and lets the oldest go.
    fn put_away(&self, text: &str) -> io::Result<()> {
        let numbers = self.numbers();
        let newest = numbers.first().copied();
        if newest.is_some_and(|n| fs::read_to_string(self.path_of(n)).is_ok_and(|t| t == text)) {
            return Ok(());
        }
        let next = newest.unwrap_or(0).checked_add(1);
        let next = next.ok_or_else(|| Error::other("there is no number left for what it was"))?;
        files::whole(&self.path_of(next), text.as_bytes(), true)?;
        for old in numbers.iter().skip(KEPT - 1) {
            // One too many is kept rather than a text refused.
            let _ = fs::remove_file(self.path_of(*old));
        }
        Ok(())
    }
}

impl Shelf for Files {
    fn read(&self) -> page::Texts {
        let read = |p: &PathBuf| {
            let text = fs::read_to_string(p);
            let text = text.map_err(|e| format!("{} can't be read: {e}", p.display()))?;
            let name = p.display().to_string();
            Ok::<_, String>(job::Source { name, text })
        };
        let stock = self.texts.stock.iter().map(read);
        Ok((read(&self.texts.plan)?, stock.collect::<Result<_, _>>()?))
    }

    fn write(
        &self,
        seen: &dyn Fn(&str) -> bool,
        text: &str,
        stroke: Stroke,
    ) -> Result<(), Refused> {
        let _one = self.writing.lock().unwrap_or_else(PoisonError::into_inner);
        let plan = &self.texts.plan;
        let failed =
            |e: Error| Refused::Failed(format!("{} can't be written: {e}", plan.display()));
        // Another program may have the same plan open.
        let _alone = self.locked().map_err(failed)?;
        let now = fs::read_to_string(plan).map_err(failed)?;
        if !seen(&now) {
            return Err(Refused::Changed(now));
        }
        if now == text {
            return Ok(());
        }
        if stroke == Stroke::Anew {
            self.put_away(&now).map_err(failed)?;
        }
        // Where the plan is a link, what it leads to is replaced, not the link.
        let target = fs::canonicalize(plan).map_err(failed)?;
        files::whole(&target, text.as_bytes(), true).map_err(failed)
    }

    fn versions(&self) -> Vec<Version> {
        let numbers = self.numbers().into_iter();
        let version = |number| {
            let changed = fs::metadata(self.path_of(number)).and_then(|m| m.modified());
            let ago = changed.ok().and_then(|t| t.elapsed().ok());
            Version {
                number,
                when: ago.map_or_else(String::new, |ago| ago_words(ago.as_secs())),
            }
        };
        numbers.map(version).collect()
    }

    fn version(&self, number: u32) -> Option<String> {
        fs::read_to_string(self.path_of(number)).ok()
    }

    fn record(&self) -> Vec<Entry> {
        self.record.entries()
    }

    fn note(&self, noted: Noted, who: &str) -> Result<(), String> {
        let plan = fs::read_to_string(&self.texts.plan).unwrap_or_default();
        self.record.note(noted, who, &plan)
    }
}

/// "12 minutes ago".
fn ago_words(seconds: u64) -> String {
    let (n, unit) = match seconds {
        0..60 => return "just now".to_owned(),
        60..3600 => (seconds / 60, "minute"),
        3600..86_400 => (seconds / 3600, "hour"),
        _ => (seconds / 86_400, "day"),
    };
    let plural = if n == 1 { "" } else { "s" };
    format!("{n} {unit}{plural} ago")
}

#[cfg(test)]
mod tests {
    use super::*;

    fn shelf(text: &str) -> (tempfile::TempDir, Files) {
        let folder = tempfile::tempdir().unwrap();
        let plan = folder.path().join("a.toml");
        fs::write(&plan, text).unwrap();
        let stock = Vec::new();
        (folder, Files::new(Texts { plan, stock }))
    }

    #[test]
    fn a_text_is_taken_from_whoever_saw_the_last_one() {
        let (_folder, files) = shelf("one");
        assert_eq!(files.write(&|t| t == "one", "two", Stroke::Anew), Ok(()));
        assert_eq!(
            files.write(&|t| t == "one", "three", Stroke::Anew),
            Err(Refused::Changed("two".to_owned()))
        );
        assert_eq!(files.read().unwrap().0.text, "two");
        assert_eq!(files.versions().len(), 1);
        assert_eq!(files.version(1).as_deref(), Some("one"));
    }

    #[test]
    fn the_last_hundred_are_kept() {
        let (_folder, files) = shelf("0");
        for n in 0..130 {
            assert_eq!(
                files.write(&|t| t == n.to_string(), &(n + 1).to_string(), Stroke::Anew),
                Ok(())
            );
        }
        let versions = files.versions();
        assert_eq!(versions.len(), KEPT);
        assert_eq!(files.version(versions[0].number).as_deref(), Some("129"));
        assert_eq!(files.version(versions[99].number).as_deref(), Some("30"));
    }

    #[test]
    fn where_the_plan_is_a_link_what_it_leads_to_is_changed() {
        let (folder, _) = shelf("one");
        let link = folder.path().join("link.toml");
        #[cfg(unix)]
        std::os::unix::fs::symlink(folder.path().join("a.toml"), &link).unwrap();
        #[cfg(not(unix))]
        fs::copy(folder.path().join("a.toml"), &link)
            .map(|_| ())
            .unwrap();
        let texts = Texts {
            plan: link.clone(),
            stock: Vec::new(),
        };
        let files = Files::new(texts);
        assert_eq!(files.write(&|t| t == "one", "two", Stroke::Anew), Ok(()));
        let still = cfg!(not(unix)) || fs::symlink_metadata(&link).unwrap().is_symlink();
        assert!(still);
        let there = if cfg!(unix) {
            folder.path().join("a.toml")
        } else {
            link
        };
        assert_eq!(fs::read_to_string(there).unwrap(), "two");
    }

    #[test]
    fn two_programs_on_one_plan_never_lose_each_others_work() {
        let (folder, _) = shelf("");
        let plan = folder.path().join("a.toml");
        std::thread::scope(|scope| {
            for writer in 0..2 {
                // Each with its own shelf, as two programs have.
                let (plan, stock) = (plan.clone(), Vec::new());
                scope.spawn(move || {
                    let files = Files::new(Texts { plan, stock });
                    for n in 0..40 {
                        let mut seen = files.read().unwrap().0.text;
                        while let Err(refused) = files.write(
                            &|t| t == seen,
                            &format!("{seen}{writer}.{n}\n"),
                            Stroke::Anew,
                        ) {
                            match refused {
                                Refused::Changed(now) => seen = now,
                                Refused::Failed(why) => panic!("{why}"),
                            }
                        }
                    }
                });
            }
        });
        let text = fs::read_to_string(&plan).unwrap();
        assert_eq!(text.lines().count(), 80);
    }

    #[test]
    fn writers_at_once_never_lose_each_others_work() {
        let (_folder, files) = shelf("");
        std::thread::scope(|scope| {
            for writer in 0..4 {
                let files = &files;
                scope.spawn(move || {
                    for n in 0..20 {
                        let mut seen = files.read().unwrap().0.text;
                        // Somebody was quicker: what they wrote is merged, and tried again.
                        while let Err(Refused::Changed(now)) = files.write(
                            &|t| t == seen,
                            &format!("{seen}{writer}.{n}\n"),
                            Stroke::Anew,
                        ) {
                            seen = now;
                        }
                    }
                });
            }
        });
        let text = files.read().unwrap().0.text;
        let lines: std::collections::BTreeSet<&str> = text.lines().collect();
        assert_eq!((lines.len(), text.lines().count()), (80, 80));
    }

    #[test]
    fn letters_that_go_on_put_nothing_away() {
        let (_folder, files) = shelf("");
        let typed = |was: &str, now: &str, stroke| {
            assert_eq!(files.write(&|t| t == was, now, stroke), Ok(()));
        };
        typed("", "w", Stroke::Anew);
        typed("w", "wo", Stroke::GoesOn);
        typed("wo", "wor", Stroke::GoesOn);
        assert_eq!(files.versions().len(), 1);
        assert_eq!(files.version(1).as_deref(), Some(""));
    }

    #[test]
    fn what_can_t_be_written_leaves_what_is_there() {
        let (folder, files) = shelf("one");
        // A file stands where the folder of versions would.
        fs::write(folder.path().join("a.toml.before"), "").unwrap();
        assert!(matches!(
            files.write(&|t| t == "one", "two", Stroke::Anew),
            Err(Refused::Failed(_))
        ));
        assert_eq!(files.read().unwrap().0.text, "one");
    }
}
