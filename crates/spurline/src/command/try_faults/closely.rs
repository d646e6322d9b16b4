//! The faults of one kind, of one wire or part, or in one state: in a table, and the worst of them moment by moment.

use super::progress::Progress;
use super::{ended, write};
use crate::args::Try;
use crate::show::{self, complain};
use crate::{Ended, json};
use job::study::{Asked, FAULTS, FaultCase, FaultDetail, Trial};
use job::{Job, Mended, Tries, nearest};

/// Runs it.
pub(super) fn run(a: &Try, job: &Job) -> Result<Ended, Ended> {
    let state = a
        .state
        .as_deref()
        .map(|name| state(job, name))
        .transpose()?;
    known(a, &job.fault_cases().ok_or(Ended::Unread)?)?;
    let asked = Asked {
        cases: &|case| wanted(a, case),
        state,
    };
    let bar = Progress::new("faults tried");
    let tries = job.tries_of(&asked, &|done, all| bar.at(done, all));
    bar.over();
    let tries = tries.ok_or(Ended::Unread)?;
    let trials = tries.by_outcome();
    let Some(worst) = trials.first() else {
        complain(
            "this fault was tried in no state that came to rest",
            "`spurline check` says which states do not",
        );
        return Err(Ended::Unread);
    };
    let bar = Progress::new("findings with their mends tried");
    let mended = job.mended(&tries, &|done, all| bar.at(done, all));
    bar.over();
    let detail = job.try_closely(&tries, worst).ok_or(Ended::Unread)?;
    let written = written(a, job, &detail, &mended)?;
    if a.json {
        let details: Vec<_> = trials
            .iter()
            .filter_map(|t| job.try_closely(&tries, t))
            .collect();
        json::print(&json::closely(job, (&tries, &details), &mended, written));
        return Ok(ended(&mended));
    }
    if let Some(content) = job.closely_report(&detail, &mended, None) {
        anstream::print!("{}", show::content(&content));
    }
    for other in &trials[1..] {
        anstream::println!("also {}", line(&tries, other));
    }
    for file in written {
        anstream::println!("wrote {file}");
    }
    Ok(ended(&mended))
}

/// "opens: W1.3 … touches the body: F1 opens after 5 ms".
fn line(tries: &Tries, trial: &Trial) -> String {
    let kind = FAULTS[tries.cases[trial.case].kind].id;
    format!("{} ({kind}): {}", trial.outcome.word(), trial.says)
}

/// Writes the page and the chart of the worst, if a folder is given; gives their paths.
fn written(
    a: &Try,
    job: &Job,
    detail: &FaultDetail,
    mended: &[Mended],
) -> Result<Vec<String>, Ended> {
    if a.into.is_none() {
        return Ok(Vec::new());
    }
    let chart = job.fault_chart(detail);
    let content = job.closely_report(detail, mended, chart.as_ref());
    let page = job::pack::page(&content.ok_or(Ended::Unread)?);
    let mut named = vec![("fault.html".to_owned(), page.into_bytes())];
    // Where nothing warms there is no chart; the page says so.
    named.extend(chart.map(|c| (format!("{}.svg", c.name), c.svg.into_bytes())));
    write(a, &named)
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

fn of_kind(a: &Try, case: &FaultCase) -> bool {
    a.fault.as_ref().is_none_or(|k| FAULTS[case.kind].id == k)
}

/// Whether a case is asked for.
fn wanted(a: &Try, case: &FaultCase) -> bool {
    let named = |at: &String| {
        let mut names = case.names.iter().chain([&case.at]);
        names.any(|n| n.eq_ignore_ascii_case(at))
    };
    of_kind(a, case) && a.at.as_ref().is_none_or(named)
}

/// Whether there is anything of what is asked for; else what there is.
fn known(a: &Try, cases: &[FaultCase]) -> Result<(), Ended> {
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
    if cases.iter().any(|c| wanted(a, c)) {
        return Ok(());
    }
    let Some(at) = a.at.as_deref() else {
        complain(
            "this plan has nothing that could go wrong in this way",
            "`spurline try` lists every fault with its place",
        );
        return Err(Ended::Unread);
    };
    let names = cases.iter().filter(|c| of_kind(a, c));
    let names = names.flat_map(|c| c.names.iter());
    let mend = match nearest(at, names.map(String::as_str)) {
        Some(near) => format!("did you mean \u{201c}{near}\u{201d}?"),
        None => "`spurline try` lists every fault with its place".to_owned(),
    };
    complain(
        &format!("no such fault is tried at \u{201c}{at}\u{201d}"),
        &mend,
    );
    Err(Ended::Unread)
}
