//! Files: read whole, written whole. A file is never damaged: what is written goes to a new file
//! beside it, is synced, and takes its name at last.

use crate::Ended;
use crate::show::complain;
use job::{Job, Source};
use std::fs;
use std::io::Write;
use std::path::{Path, PathBuf};

/// Reads a text, or says why not.
pub fn read(path: &Path) -> Result<Source, Ended> {
    match fs::read_to_string(path) {
        Ok(text) => Ok(Source {
            name: path.display().to_string(),
            text,
        }),
        Err(e) => {
            let mend = match e.kind() {
                std::io::ErrorKind::NotFound => "check the path, or start one with `spurline new`",
                std::io::ErrorKind::InvalidData => "a plan is a text file in UTF-8",
                _ => "check that it is a file that you may read",
            };
            complain(&format!("{} can't be read: {e}", path.display()), mend);
            Err(Ended::Unread)
        }
    }
}

/// Reads a plan with the user's stock files into a job. Texts with errors are shown, and stop here.
pub fn job(texts: &crate::args::Texts) -> Result<Job, Ended> {
    let plan = read(&texts.plan)?;
    let stock = texts
        .stock
        .iter()
        .map(|p| read(p))
        .collect::<Result<Vec<_>, _>>()?;
    let job = Job::read(plan, stock);
    if job.errors().is_empty() {
        return Ok(job);
    }
    crate::show::errors(&job);
    Err(Ended::Unread)
}

/// What becomes of a file that is there already.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Existing {
    /// It stays, always.
    Stays,
    /// It stays until the person says --replace.
    StaysUntilSaid,
    /// It is replaced.
    Replaced,
}

/// Writes a file whole: new file beside it, synced, renamed.
pub fn write(path: &Path, bytes: &[u8], existing: Existing) -> Result<(), Ended> {
    let fail = |e: std::io::Error| {
        complain(
            &format!("{} can't be written: {e}", path.display()),
            "check the folder, its rights and the space left",
        );
        Ended::Unread
    };
    let folder = match path.parent() {
        Some(p) if p != Path::new("") => p,
        _ => Path::new("."),
    };
    fs::create_dir_all(folder).map_err(fail)?;
    let mut file = tempfile::NamedTempFile::new_in(folder).map_err(fail)?;
    file.write_all(bytes).map_err(fail)?;
    file.as_file().sync_all().map_err(fail)?;
    let kept = if existing == Existing::Replaced {
        file.persist(path).map(|_| ())
    } else {
        file.persist_noclobber(path).map(|_| ())
    };
    kept.map_err(|e| {
        if e.error.kind() == std::io::ErrorKind::AlreadyExists {
            complain(
                &format!("{} is there already", path.display()),
                "choose another place, or say --replace",
            );
            return Ended::Unread;
        }
        fail(e.error)
    })
}

/// Writes several files into a folder; gives their paths.
pub fn write_all(
    folder: &Path,
    files: &[(String, Vec<u8>)],
    existing: Existing,
) -> Result<Vec<PathBuf>, Ended> {
    files
        .iter()
        .map(|(name, bytes)| {
            let path = folder.join(name);
            write(&path, bytes, existing)?;
            Ok(path)
        })
        .collect()
}
