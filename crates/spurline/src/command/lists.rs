//! `lists`: what to buy, and what to cut with what goes on each end.

use super::{ended, write_all};
use crate::args::ListsArgs;
use crate::show::{self, complain};
use crate::{Ended, files, json};
use job::Job;
use std::path::Path;

/// Runs it.
pub fn run(a: &ListsArgs) -> Ended {
    listed(a).unwrap_or_else(|e| e)
}

fn listed(a: &ListsArgs) -> Result<Ended, Ended> {
    let job = files::job(&a.texts)?;
    let lists = job.lists().ok_or(Ended::Unread)?;
    let written = match &a.into {
        Some(folder) => written(&job, folder, a.replace)?,
        None => Vec::new(),
    };
    if a.json {
        json::print(&json::lists(&job, lists, written));
        return Ok(ended(&job));
    }
    if let Some(content) = job.lists_report() {
        anstream::print!("{}", show::content(&content));
    }
    for file in written {
        anstream::println!("wrote {file}");
    }
    Ok(ended(&job))
}

/// Writes the page and the tables; gives their paths.
fn written(job: &Job, folder: &Path, replace: bool) -> Result<Vec<String>, Ended> {
    let content = job.lists_report().ok_or(Ended::Unread)?;
    let page = job::pack::page(&content).into_bytes();
    let tables = job.lists_csv().map_err(|why| {
        complain(&format!("the tables could not be made: {why}"), "try again");
        Ended::Unread
    })?;
    let mut named = vec![("lists.html".to_owned(), page)];
    named.extend(
        tables
            .into_iter()
            .map(|(name, text)| (name.to_owned(), text)),
    );
    write_all(folder, replace, &named)
}
