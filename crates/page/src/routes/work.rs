//! What takes a while: the pack, and every fault. A page says how far it has come, and looks again by itself.

use super::read::{Pairs, unread};
use super::{Answer, away, html, plan};
use crate::desk::Desk;
use crate::making::{File, Made, Making, Progress};
use crate::view;
use axum::extract::{Form, Path, Query, State};
use axum::http::{StatusCode, header};
use axum::response::{Html, IntoResponse, Redirect, Response};
use job::pack::{PARTS, Paper, Part};
use job::{Job, Mended, Weight};
use maud::{DOCTYPE, Markup, html as markup};
use std::sync::Arc;
use std::time::Duration;

/// So long a page waits by itself before it says how far it has come.
pub(super) const SOON: Duration = Duration::from_millis(900);

/// A page that looks again every second. Its head differs, so that it works without script.
pub(super) fn under_way(here: &str, title: &str, p: &Progress) -> Response {
    let page = markup! {
        (DOCTYPE)
        html lang="en" {
            head {
                meta charset="utf-8";
                meta name="viewport" content="width=device-width, initial-scale=1";
                meta http-equiv="refresh" content="1";
                title { (title) }
                link rel="stylesheet" href="/style.css";
                link rel="stylesheet" href="/page.css";
            }
            body {
                (view::rooms(here, None))
                header { h1 { (title) } }
                main {
                    p.state role="status" { (p.what) }
                    progress max="1" value=(format!("{:.3}", p.part)) aria-label=(p.what) {}
                    p.source { "This page looks again by itself." }
                }
            }
        }
    };
    Html(page.into_string()).into_response()
}

pub(super) fn failed(why: &str) -> Response {
    (StatusCode::INTERNAL_SERVER_ERROR, Html(view::refused(why))).into_response()
}

/// Every fault of a plan, with its matrix; each mend that cures can be made.
pub(super) async fn faults(State(desk): State<Arc<Desk>>, Path(name): Path<String>) -> Answer {
    let kept = plan(&desk, &name)?;
    away(&desk, move || {
        match kept.best() {
            Err(why) => return unread(&why),
            Ok(job) if job.loom().is_none() => return Redirect::to("./").into_response(),
            Ok(_) => {}
        }
        let make = |job: &Job, making: &Making| {
            every_fault(job, making).map_or_else(
                || Made::Nothing("There are no faults to try.".to_owned()),
                |(page, worst)| Made::Tried(Arc::new(page), worst),
            )
        };
        let making = match kept.making("faults", "", make) {
            Ok(making) => making,
            Err(why) => return unread(&why),
        };
        match making.wait(SOON) {
            (_, Some(Made::Tried(page, _))) => html(&page),
            (_, Some(Made::Nothing(why))) => failed(&why),
            (p, _) => under_way("faults", "Every fault is being tried", &p),
        }
    })
    .await
}

fn every_fault(job: &Job, making: &Making) -> Option<(String, [usize; 2])> {
    job.answers()?;
    let part = |done: usize, of: usize| done as f64 / of.max(1) as f64;
    let tries = job.tries(&|done, of| {
        making.tell(&format!("fault {done} of {of}"), 0.6 * part(done, of));
    })?;
    let mended = job.mended(&tries, &|done, of| {
        making.tell(
            &format!("mends for finding {done} of {of}"),
            0.6 + 0.35 * part(done, of),
        );
    });
    making.tell("drawing", 0.96);
    let protection = job.protection();
    let drawn = job.fault_drawings(&tries, protection.as_ref());
    let content = job.fault_report(&tries, &mended, protection.as_ref(), Some(&drawn))?;
    let body = markup! {
        (view::rooms("faults", Some(job)))
        (mends(&mended))
        (job::pack::fragment(&content))
    };
    let worst = [Weight::Stop, Weight::Mend];
    let worst = worst.map(|w| mended.iter().filter(|m| m.finding.weight == w).count());
    Some((view::around(&content.title, &body), worst))
}

/// The mends that were tried and cure.
fn mends(mended: &[Mended]) -> Markup {
    let cures = mended.iter().filter_map(|m| {
        let mend = m.mends.last().filter(|mend| mend.cures)?;
        Some((m, mend))
    });
    let cures: Vec<_> = cures.collect();
    markup! {
        @if !cures.is_empty() {
            section id="mends" aria-label="Mends that were tried" {
                h2 { "Mends that were tried, and cure" }
                @for (m, mend) in cures {
                    article class={ "finding " (m.finding.weight) } {
                        p.says { strong { (m.finding.weight) } " " (m.finding.says) }
                        @for adds in &mend.adds { p.mend { "But then: " (adds) } }
                        form.deed method="post" action="apply" {
                            input type="hidden" name="says" value=(mend.says);
                            @for c in &mend.changes {
                                input type="hidden" name="path" value=(c.path);
                                input type="hidden" name="value" value=(c.value.as_deref().unwrap_or(""));
                            }
                            button type="submit" { "Mend it: " (mend.says) }
                        }
                    }
                }
            }
        }
    }
}

/// What the pack may hold, and what was made of it.
pub(super) async fn pack(State(desk): State<Arc<Desk>>, Path(name): Path<String>) -> Answer {
    let kept = plan(&desk, &name)?;
    away(&desk, move || {
        let job = match kept.best() {
            Err(why) => return unread(&why),
            Ok(job) if job.loom().is_none() => return Redirect::to("./").into_response(),
            Ok(job) => job,
        };
        let text = job.sources().first().map_or("", |s| s.text.as_str());
        let tried = kept.tried(&crate::kept::revision(text));
        let Some(making) = kept.begun("pack") else {
            return html(&order(&job, tried, None));
        };
        match making.look() {
            (_, Some(made)) => html(&order(&job, tried, Some((&making, &made)))),
            (p, None) => under_way("pack", "The pack is being made", &p),
        }
    })
    .await
}

fn order(job: &Job, tried: Option<[usize; 2]>, made: Option<(&Making, &Made)>) -> String {
    let title = job.plan().map_or("", |p| p.job.title.as_str());
    let text = job.sources().first().map_or("", |s| s.text.as_str());
    let old = |m: &Making| !m.of.starts_with(&crate::kept::revision(text));
    let body = markup! {
        (view::rooms("pack", Some(job)))
        header { h1 { (title) ": the pack" } }
        main {
            p.tally { (crate::found::faults(tried)) }
            @match made {
                Some((making, Made::Files(files))) => {
                    section id="made" role="status" {
                        h2 { "Made" }
                        @if old(making) { p.wrong { "The plan was changed since: make it again." } }
                        ul { @for f in files.iter() { li { a.deed href={ "made?file=" (f.name) } download=(f.name) { (f.name) } " " span.source { (f.bytes.len().div_ceil(1000)) " kB" } } } }
                    }
                }
                Some((_, Made::Nothing(why))) => p.wrong role="status" { (why) },
                _ => {}
            }
            form method="post" action="pack" {
                fieldset.many {
                    legend { "What it holds" }
                    @for part in PARTS {
                        label { input type="checkbox" name="part" value=(part.word()) checked; " " (part.word()) ": " span.source { (holds(part)) } }
                    }
                }
                fieldset.many {
                    legend { "Printed on" }
                    label { input type="radio" name="paper" value="A4" checked; " A4" }
                    label { input type="radio" name="paper" value="letter"; " letter" }
                }
                div.field {
                    label for="date" { "The date on its cover" }
                    input id="date" name="date" placeholder="left open, to be written by hand" autocomplete="off";
                }
                button type="submit" { "Make the pack" }
            }
        }
    };
    view::around(title, &body)
}

/// What a part of the pack holds, to somebody who has not seen one.
fn holds(part: Part) -> &'static str {
    match part {
        Part::Findings => "what can hurt, what was checked and what was not, what was found",
        Part::Circuit => "the circuit diagram",
        Part::Board => "the loom laid flat, to build it on",
        Part::Route => "where it runs in the vehicle",
        Part::Lists => "what to buy, what to cut",
        Part::Steps => "the order of the work, a picture for every step",
        Part::Proof => "what the meter should read before and after power is on",
        Part::Charts => "where the volts go, each fuse against its wire, the day",
        Part::Figures => "every figure, and what was assumed",
        Part::Card => "a card for the glovebox",
        Part::Labels => "labels for the wires, to cut out",
    }
}

pub(super) async fn make_pack(
    State(desk): State<Arc<Desk>>,
    Path(name): Path<String>,
    Form(fields): Form<Vec<(String, String)>>,
) -> Answer {
    let kept = plan(&desk, &name)?;
    away(&desk, move || {
        let said = |key: &str| {
            fields
                .iter()
                .filter(|(k, _)| k == key)
                .map(|(_, v)| v.as_str())
                .collect::<Vec<_>>()
        };
        let wanted = said("part");
        let parts: Vec<Part> = PARTS
            .into_iter()
            .filter(|p| wanted.contains(&p.word()))
            .collect();
        let parts = if parts.is_empty() {
            PARTS.to_vec()
        } else {
            parts
        };
        let paper = match said("paper").first() {
            Some(&"letter") => Paper::Letter,
            _ => Paper::A4,
        };
        let date = said("date")
            .first()
            .map(|d| d.trim().to_owned())
            .filter(|d| !d.is_empty());
        let how = format!("{parts:?} {paper:?} {date:?}");
        let make =
            move |job: &Job, making: &Making| packed(job, &parts, (paper, date.as_deref()), making);
        match kept.making("pack", &how, make) {
            Ok(making) => {
                let _ = making.wait(SOON);
                Redirect::to("pack").into_response()
            }
            Err(why) => unread(&why),
        }
    })
    .await
}

fn packed(
    job: &Job,
    parts: &[Part],
    (paper, date): (Paper, Option<&str>),
    making: &Making,
) -> Made {
    if job.answers().is_none() {
        return Made::Nothing("The plan has errors: nothing can be made of it.".to_owned());
    }
    making.tell("drawing", 0.4);
    let Some(content) = job.whole(parts, paper, date) else {
        return Made::Nothing("The plan has errors: nothing can be made of it.".to_owned());
    };
    let mut files = Vec::new();
    #[cfg(feature = "pdf")]
    {
        making.tell("setting the pages", 0.6);
        match job::pack::pdf(&content) {
            Ok(bytes) => files.push(File {
                name: "pack.pdf",
                kind: "application/pdf",
                bytes,
            }),
            Err(e) => {
                return Made::Nothing(format!(
                    "{e}. That is a defect: please report it with the plan."
                ));
            }
        }
    }
    files.push(File {
        name: "pack.html",
        kind: "text/html; charset=utf-8",
        bytes: job::pack::page(&content).into_bytes(),
    });
    making.tell("done", 1.0);
    Made::Files(Arc::new(files))
}

/// A file that was made.
pub(super) async fn made(
    State(desk): State<Arc<Desk>>,
    Path(name): Path<String>,
    Query(query): Pairs,
) -> Answer {
    let kept = plan(&desk, &name)?;
    let made = kept.begun("pack").and_then(|m| m.look().1);
    let none = || {
        let page = view::not_there("No such file was made: make the pack first.");
        (StatusCode::NOT_FOUND, Html(page)).into_response()
    };
    let (Some(Made::Files(files)), Some(wanted)) = (made, query.get("file")) else {
        return Ok(none());
    };
    let Some(file) = files.iter().find(|f| f.name == wanted) else {
        return Ok(none());
    };
    let saved = format!("attachment; filename=\"{}\"", file.name);
    let head = [
        (header::CONTENT_TYPE, file.kind.to_owned()),
        (header::CONTENT_DISPOSITION, saved),
    ];
    Ok((head, file.bytes.clone()).into_response())
}
