//! `compare`: two plans side by side. It ends as stopped when the second has a stop that the first has not.

use crate::args::{Compare, Texts};
use crate::{Ended, files, json, show};
use job::{Job, Weight};
use std::path::Path;

/// Runs it.
pub fn run(a: &Compare) -> Ended {
    compared(a).unwrap_or_else(|e| e)
}

fn compared(a: &Compare) -> Result<Ended, Ended> {
    let read = |plan: &Path| -> Result<Job, Ended> {
        files::job(&Texts {
            plan: plan.to_owned(),
            stock: a.stock.clone(),
        })
    };
    // Both are read before either stops it: errors of both are shown at once.
    let (first, second) = (read(&a.first), read(&a.second));
    let (first, second) = (first?, second?);
    let Some(comparison) = first.compare(&second) else {
        return Err(Ended::Unread);
    };
    if a.json {
        json::print(&json::compare(&first, &second, &comparison));
    } else if let Some(content) = first.comparison(&second, &comparison) {
        anstream::print!("{}", show::content(&content));
    }
    let new_stop = comparison
        .only_second
        .iter()
        .any(|f| f.weight == Weight::Stop);
    Ok(if new_stop { Ended::Stops } else { Ended::Well })
}
