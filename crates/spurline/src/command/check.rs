//! `check`: size, judge, report.

use super::ended;
use crate::args::Check;
use crate::{Ended, files, json, show};
use job::Job;

/// Runs it.
pub fn run(a: &Check) -> Ended {
    match checked(a) {
        Ok(job) => ended(&job),
        Err(e) => e,
    }
}

fn checked(a: &Check) -> Result<Job, Ended> {
    let job = files::job(&a.texts)?;
    let (Some(loom), Some(answers)) = (job.loom(), job.answers()) else {
        return Err(Ended::Unread);
    };
    if let Some(path) = &a.deck {
        let deck = job.deck(0).unwrap_or_default();
        files::write(path, deck.as_bytes(), files::Existing::Replaced)?;
    }
    if a.json {
        json::print(&json::check(loom, job.stock(), answers));
    } else if let Some(name) = &a.why {
        anstream::print!("{}", why(&job, name)?);
    } else if let Some(content) = job.report(false) {
        anstream::print!("{}", show::content(&content));
    }
    Ok(job)
}

fn why(job: &Job, name: &str) -> Result<String, Ended> {
    if let Some(section) = job.why(name) {
        return Ok(show::section(&section));
    }
    let mend = match job.nearest_name(name) {
        Some(near) => format!("did you mean {near}? `spurline check` lists them all"),
        None => "`spurline check` lists every wire, fuse and part by name".to_owned(),
    };
    show::complain(&format!("nothing here is called “{name}”"), &mend);
    Err(Ended::Unread)
}
