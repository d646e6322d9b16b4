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

/// How a file is called before it takes its name.
const UNDER_WAY: (&str, &str) = (".spurline-", ".new");

/// How the name of a file begins that is to become this one.
fn beginning(path: &Path) -> String {
    let name = path.file_name().map(|n| n.to_string_lossy());
    format!("{}{}.", UNDER_WAY.0, name.unwrap_or_default())
}

/// Whether a file is one that was to become another, and was never finished.
pub fn is_under_way(name: &str, to_be: &Path) -> bool {
    name.starts_with(&beginning(to_be)) && name.ends_with(UNDER_WAY.1)
}

/// The folder that a file lies in.
pub fn folder_of(path: &Path) -> &Path {
    match path.parent() {
        Some(folder) if !folder.as_os_str().is_empty() => folder,
        _ => Path::new("."),
    }
}

/// Writes a file whole: to a new file beside it, synced, renamed, and the folder synced too.
pub fn whole(path: &Path, bytes: &[u8], replace: bool) -> std::io::Result<()> {
    let folder = folder_of(path);
    let mut file = tempfile::Builder::new()
        .prefix(&beginning(path))
        .suffix(UNDER_WAY.1)
        .tempfile_in(folder)?;
    file.write_all(bytes)?;
    if let Ok(known) = fs::metadata(path) {
        file.as_file().set_permissions(known.permissions())?;
    }
    file.as_file().sync_all()?;
    let kept = match replace {
        true => file.persist(path),
        false => file.persist_noclobber(path),
    };
    kept.map_err(|e| e.error)?;
    // Where a folder can't be opened the name is as lasting as the system makes it.
    fs::File::open(folder).and_then(|f| f.sync_all()).or(Ok(()))
}

/// Writes a file, and says why if it can't be.
pub fn write(path: &Path, bytes: &[u8], existing: Existing) -> Result<(), Ended> {
    let fail = |e: std::io::Error| {
        complain(
            &format!("{} can't be written: {e}", path.display()),
            "check the folder, its rights and the space left",
        );
        Ended::Unread
    };
    fs::create_dir_all(folder_of(path)).map_err(fail)?;
    whole(path, bytes, existing == Existing::Replaced).map_err(|e| {
        if e.kind() == std::io::ErrorKind::AlreadyExists {
            complain(
                &format!("{} is there already", path.display()),
                "choose another place, or say --replace",
            );
            return Ended::Unread;
        }
        fail(e)
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
