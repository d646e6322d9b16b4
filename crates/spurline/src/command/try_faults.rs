//! `try`: every fault, tried; or the faults of one kind or place, looked at closely.

mod closely;

use super::write_all;
use crate::args::Try;
use crate::show::Progress;
use crate::{Ended, files, json, show};
use job::{Job, Mended, Tries, Weight};

/// Runs it.
pub fn run(a: &Try) -> Ended {
    tried(a).unwrap_or_else(|e| e)
}

fn tried(a: &Try) -> Result<Ended, Ended> {
    let job = files::job(&a.texts)?;
    if a.fault.is_some() || a.at.is_some() || a.state.is_some() {
        return closely::run(a, &job);
    }
    let bar = Progress::new("faults tried");
    let tries = job.tries(&|done, all| bar.at(done, all));
    bar.over();
    let tries = tries.ok_or(Ended::Unread)?;
    let bar = Progress::new("findings with their mends tried");
    let mended = job.mended(&tries, &|done, all| bar.at(done, all));
    bar.over();
    let written = written(a, &job, &tries, &mended)?;
    if a.json {
        json::print(&json::tries(&job, &tries, &mended, written));
        return Ok(ended(&mended));
    }
    // A terminal shows no drawings.
    let protection = job.protection();
    if let Some(content) = job.fault_report(&tries, &mended, protection.as_ref(), None) {
        anstream::print!("{}", show::content(&content));
    }
    for file in written {
        anstream::println!("wrote {file}");
    }
    Ok(ended(&mended))
}

/// A finding that stops shows in the exit status.
fn ended(mended: &[Mended]) -> Ended {
    match mended.iter().any(|m| m.finding.weight == Weight::Stop) {
        true => Ended::Stops,
        false => Ended::Well,
    }
}

/// Writes the page and its drawings, if a folder is given; gives their paths.
fn written(a: &Try, job: &Job, tries: &Tries, mended: &[Mended]) -> Result<Vec<String>, Ended> {
    if a.into.is_none() {
        return Ok(Vec::new());
    }
    let protection = job.protection();
    let drawn = job.fault_drawings(tries, protection.as_ref());
    let content = job.fault_report(tries, mended, protection.as_ref(), Some(&drawn));
    let page = job::pack::page(&content.ok_or(Ended::Unread)?);
    let mut named = vec![("try.html".to_owned(), page.into_bytes())];
    let sheets = drawn.matrix.into_iter().chain(drawn.charts);
    named.extend(sheets.map(|s| (format!("{}.svg", s.name), s.svg.into_bytes())));
    write(a, &named)
}

fn write(a: &Try, named: &[(String, Vec<u8>)]) -> Result<Vec<String>, Ended> {
    match &a.into {
        Some(folder) => write_all(folder, a.replace, named),
        None => Ok(Vec::new()),
    }
}
