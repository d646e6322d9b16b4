//! `check`: size, judge, report.

use super::ended;
use crate::args::Check;
use crate::{Ended, files, json, show};
use job::{Answers, Job};

/// Sections that are long and decide nothing by themselves: a finding says by itself what of them decides it. A
/// terminal is read from the top, so they are left out there; pages keep them.
const LISTS: [&str; 2] = ["assumed", "recalled"];

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
    } else if let Some(mut content) = job.report(false) {
        if !a.all {
            content.sections.retain(|s| !LISTS.contains(&s.id));
        }
        anstream::print!("{}", show::content(&content));
        if !a.all {
            anstream::print!("\n{}", show::text(&left_out(answers)));
        }
    }
    Ok(job)
}

/// "14 values were assumed and 31 recalled, …".
fn left_out(answers: &Answers) -> String {
    let assumed = match answers.assumptions.len() {
        1 => "1 value was assumed".to_owned(),
        n => format!("{n} values were assumed"),
    };
    let recalled = answers.recalled.len();
    format!(
        "{assumed} and {recalled} recalled, not read: `spurline check --all` lists them with how to set them."
    )
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
