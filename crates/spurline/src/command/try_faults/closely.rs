//! The faults of one kind, of one wire or part, or in one state: in a table, and the worst of them moment by moment.

use super::write;
use crate::args::Try;
use crate::show::{self, complain};
use crate::{Ended, json};
use job::study::{FAULTS, FaultCase, Outcome};
use job::{Job, Tries, nearest};

/// Runs it.
pub(super) fn run(a: &Try, job: &Job, tries: &Tries) -> Result<Ended, Ended> {
    let state = a
        .state
        .as_deref()
        .map(|name| state(job, name))
        .transpose()?;
    let cases = wanted(a, tries)?;
    let details = cases.iter().filter_map(|c| job.try_closely(c, state));
    let mut details: Vec<_> = details.collect();
    details.sort_by_key(|d| d.trial.outcome);
    let Some(worst) = details.first() else {
        complain(
            "this fault was tried in no state that came to rest",
            "`spurline check` says which states do not",
        );
        return Err(Ended::Unread);
    };
    let chart = job.fault_chart(worst);
    let mut written = Vec::new();
    if let (Some(chart), Some(_)) = (&chart, &a.into) {
        let content = job
            .closely_report(worst, Some(chart))
            .ok_or(Ended::Unread)?;
        let page = job::pack::page(&content).into_bytes();
        let drawing = (
            format!("{}.svg", chart.name),
            chart.svg.clone().into_bytes(),
        );
        written = write(a, &[("fault.html".to_owned(), page), drawing])?;
    }
    let ended = match details
        .iter()
        .any(|d| d.trial.outcome == Outcome::Overheats)
    {
        true => Ended::Stops,
        false => Ended::Well,
    };
    if a.json {
        json::print(&json::closely(job, &details, written));
        return Ok(ended);
    }
    if let Some(content) = job.closely_report(worst, None) {
        anstream::print!("{}", show::content(&content));
    }
    for other in &details[1..] {
        anstream::println!("also {}: {}", other.trial.outcome.word(), other.trial.says);
    }
    for file in written {
        anstream::println!("wrote {file}");
    }
    Ok(ended)
}

/// The state of this name.
fn state(job: &Job, name: &str) -> Result<usize, Ended> {
    let states = job.answers().map_or(&[][..], |a| &a.states);
    let found = states
        .iter()
        .position(|s| s.state.name.eq_ignore_ascii_case(name));
    found.ok_or_else(|| {
        let names = states.iter().map(|s| s.state.name.as_str());
        let mend = match nearest(name, names) {
            Some(near) => format!("did you mean \u{201c}{near}\u{201d}?"),
            None => "`spurline try` names the state of every fault".to_owned(),
        };
        complain(
            &format!("no state that was tried is called \u{201c}{name}\u{201d}"),
            &mend,
        );
        Ended::Unread
    })
}

/// The cases that are asked for.
fn wanted(a: &Try, tries: &Tries) -> Result<Vec<FaultCase>, Ended> {
    if let Some(kind) = &a.fault
        && !FAULTS.iter().any(|k| k.id == kind)
    {
        let ids: Vec<&str> = FAULTS.iter().map(|k| k.id).collect();
        complain(
            &format!("no kind of fault is called \u{201c}{kind}\u{201d}"),
            &format!("one of {}", ids.join(", ")),
        );
        return Err(Ended::Unread);
    }
    let of_kind = |c: &&FaultCase| a.fault.as_ref().is_none_or(|k| FAULTS[c.kind].id == k);
    let here = |c: &&FaultCase| {
        a.at.as_ref().is_none_or(|at| {
            c.at.eq_ignore_ascii_case(at) || c.names.iter().any(|n| n.eq_ignore_ascii_case(at))
        })
    };
    let cases: Vec<FaultCase> = tries
        .cases
        .iter()
        .filter(of_kind)
        .filter(here)
        .cloned()
        .collect();
    if cases.is_empty() {
        let at = a.at.as_deref().unwrap_or_default();
        let names = tries
            .cases
            .iter()
            .filter(of_kind)
            .flat_map(|c| c.names.iter());
        let mend = match nearest(at, names.map(String::as_str)) {
            Some(near) => format!("did you mean \u{201c}{near}\u{201d}?"),
            None => "`spurline try` lists every fault with its place".to_owned(),
        };
        complain(
            &format!("no such fault is tried at \u{201c}{at}\u{201d}"),
            &mend,
        );
        return Err(Ended::Unread);
    }
    Ok(cases)
}
