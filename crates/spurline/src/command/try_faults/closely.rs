//! The faults of one kind, of one wire or part, or in one state: in a table, and the worst of them moment by moment.

use super::{ended, write};
use crate::args::Try;
use crate::show::Progress;
use crate::show::{self, complain};
use crate::{Ended, json};
use job::pack::Content;
use job::sheet::Sheet;
use job::study::{Asked, FAULTS, FaultCase, Trial};
use job::{Job, Mended, Weight, nearest};

/// Runs it.
pub(super) fn run(a: &Try, job: &Job) -> Result<Ended, Ended> {
    let state = a
        .state
        .as_deref()
        .map(|name| state(job, name))
        .transpose()?;
    known(a, job, &job.fault_cases().ok_or(Ended::Unread)?)?;
    let asked = Asked {
        cases: &|case| wanted(a, job, case),
        state,
    };
    let bar = Progress::new("faults tried");
    let tries = job.tries_of(&asked, &|done, all| bar.at(done, all));
    bar.over();
    let tries = tries.ok_or(Ended::Unread)?;
    let mut trials = tries.by_outcome();
    if trials.is_empty() {
        complain(
            "this fault was tried in no state that came to rest",
            "`spurline check` says which states do not",
        );
        return Err(Ended::Unread);
    };
    let bar = Progress::new("findings with their mends tried");
    let mended = job.mended(&tries, &|done, all| bar.at(done, all));
    bar.over();
    // What stops is what somebody who looks closely has to see first.
    let stops = |t: &&Trial| {
        let of = |m: &&Mended| m.trials.contains(&t.case) && m.finding.weight == Weight::Stop;
        mended.iter().find(of).is_none()
    };
    trials.sort_by_key(stops);
    let detail = job.try_closely(&tries, trials[0]).ok_or(Ended::Unread)?;
    let report = |chart: Option<&Sheet>| {
        let content = job.closely_report(&detail, (&tries, &trials), &mended, chart);
        content.ok_or(Ended::Unread)
    };
    let written = written(a, job.fault_chart(&detail), &report)?;
    if a.json {
        let details: Vec<_> = trials
            .iter()
            .filter_map(|t| job.try_closely(&tries, t))
            .collect();
        json::print(&json::closely(job, (&tries, &details), &mended, written));
        return Ok(ended(&mended));
    }
    anstream::print!("{}", show::content(&report(None)?));
    for file in written {
        anstream::println!("wrote {file}");
    }
    Ok(ended(&mended))
}

/// Writes the page and the chart of the worst, if a folder is given; gives their paths.
fn written(
    a: &Try,
    chart: Option<Sheet>,
    report: &dyn Fn(Option<&Sheet>) -> Result<Content, Ended>,
) -> Result<Vec<String>, Ended> {
    if a.into.is_none() {
        return Ok(Vec::new());
    }
    let page = job::pack::page(&report(chart.as_ref())?);
    let mut named = vec![("fault.html".to_owned(), page.into_bytes())];
    // Where nothing warms there is no chart; the page says so.
    named.extend(chart.map(|c| (format!("{}.svg", c.name), c.svg.into_bytes())));
    write(a, &named)
}

/// States that are named at most where one is meant.
const SOME: usize = 6;

/// The state of this name.
fn state(job: &Job, name: &str) -> Result<usize, Ended> {
    let states = job.answers().map_or(&[][..], |a| &a.states);
    let found = states
        .iter()
        .position(|s| s.state.name.eq_ignore_ascii_case(name));
    found.ok_or_else(|| {
        let names = || states.iter().map(|s| s.state.name.as_str());
        let has = |n: &&str| n.to_lowercase().contains(&name.to_lowercase());
        let within: Vec<&str> = names().filter(has).take(SOME).collect();
        let mend = match (&within[..], nearest(name, names())) {
            ([_, ..], _) => format!(
                "one of \u{201c}{}\u{201d}",
                within.join("\u{201d}, \u{201c}")
            ),
            ([], Some(near)) => format!("did you mean \u{201c}{near}\u{201d}?"),
            ([], None) => "`spurline try` names the state of every fault".to_owned(),
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

/// What a case may be asked for by: its wires and parts, its spot, its circuits.
fn names<'a>(job: &'a Job, case: &'a FaultCase) -> impl Iterator<Item = &'a str> {
    let circuits = job.loom().map_or(&[][..], |l| &l.circuits);
    let circuits = case.circuits.iter().filter_map(|c| circuits.get(*c));
    let names = case.names.iter().chain([&case.at]).map(String::as_str);
    names.chain(circuits.map(|c| c.name.as_str()))
}

/// Whether a case is asked for.
fn wanted(a: &Try, job: &Job, case: &FaultCase) -> bool {
    let named = |at: &String| names(job, case).any(|n| n.eq_ignore_ascii_case(at));
    of_kind(a, case) && a.at.as_ref().is_none_or(named)
}

/// Whether there is anything of what is asked for; else what there is.
fn known(a: &Try, job: &Job, cases: &[FaultCase]) -> Result<(), Ended> {
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
    if cases.iter().any(|c| wanted(a, job, c)) {
        return Ok(());
    }
    let Some(at) = a.at.as_deref() else {
        complain(
            "this plan has nothing that could go wrong in this way",
            "`spurline try` lists every fault with its place",
        );
        return Err(Ended::Unread);
    };
    let there = cases.iter().filter(|c| of_kind(a, c));
    let mend = match nearest(at, there.flat_map(|c| names(job, c))) {
        Some(near) => format!("did you mean \u{201c}{near}\u{201d}?"),
        None => "`spurline try` lists every fault with its place".to_owned(),
    };
    complain(
        &format!("no such fault is tried at \u{201c}{at}\u{201d}"),
        &mend,
    );
    Err(Ended::Unread)
}
