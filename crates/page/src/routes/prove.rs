//! Proving: the sheet, one test, and what is noted of them.

use super::edit::Posted;
use super::read::{Pairs, unread};
use super::work::{SOON, failed, under_way};
use super::{Answer, away, html, plan};
use crate::desk::Desk;
use crate::kept::{Change, Kept, Sent, revision};
use crate::making::{Made, Making};
use crate::{prove, text, view};
use axum::extract::{Path, Query, State};
use axum::http::StatusCode;
use axum::response::{Html, IntoResponse, Redirect, Response};
use job::Job;
use job::plan::entry;
use job::record::Noted;
use job::study::prove::Symptom;
use std::sync::Arc;

pub(super) async fn all(State(desk): State<Arc<Desk>>, Path(name): Path<String>) -> Answer {
    ready(&desk, &name, |job, kept| {
        let proved = job.proved(&kept.shelf().record())?;
        Some(html(&prove::all(job, &proved)?))
    })
    .await
}

/// A page that needs the test sheet, which a large plan takes a while for: until it is there the page says how far it has come.
async fn ready(
    desk: &Desk,
    name: &str,
    page: impl FnOnce(&Job, &Kept) -> Option<Response> + Send + 'static,
) -> Answer {
    let kept = plan(desk, name)?;
    away(desk, move || {
        match kept.best() {
            Err(why) => return unread(&why),
            Ok(job) if job.loom().is_none() => return Redirect::to("./").into_response(),
            Ok(_) => {}
        }
        let make = |job: &Job, making: &Making| {
            job.test_sheet(&|done, of| {
                let part = done as f64 / of.max(1) as f64;
                making.tell(
                    &format!("what {done} of {of} things that may be amiss would read"),
                    part,
                );
            });
            Made::Sheet
        };
        let making = match kept.making("sheet", "", make) {
            Ok(making) => making,
            Err(why) => return unread(&why),
        };
        match (making.wait(SOON), kept.best()) {
            ((_, Some(Made::Sheet)), Ok(job)) => {
                page(&job, &kept).unwrap_or_else(|| Redirect::to("./").into_response())
            }
            ((_, Some(Made::Nothing(why))), _) => failed(&why),
            ((p, _), _) => under_way("prove", "The test sheet is being worked out", &p),
        }
    })
    .await
}

pub(super) async fn test(
    State(desk): State<Arc<Desk>>,
    Path(name): Path<String>,
    Query(query): Pairs,
) -> Answer {
    let number = query.get("n").and_then(|n| n.parse().ok()).unwrap_or(1);
    ready(&desk, &name, move |job, kept| one(job, kept, number, None)).await
}

fn one(job: &Job, kept: &Kept, number: usize, wrong: Option<&str>) -> Option<Response> {
    let proved = job.proved(&kept.shelf().record())?;
    Some(html(&prove::one(job, &proved, number, wrong)?))
}

/// Notes something and goes on, or says why it could not be noted.
fn noted(kept: &Kept, (what, who): (Noted, &str), to: &str) -> Response {
    match kept.shelf().note(what, who.trim()) {
        Ok(()) => Redirect::to(to).into_response(),
        Err(why) => (StatusCode::INTERNAL_SERVER_ERROR, Html(view::refused(&why))).into_response(),
    }
}

/// A reading.
pub(super) async fn read(posted: Posted) -> Answer {
    posted
        .with_best(|job, kept, fields| {
            let Some(bench) = job.bench() else {
                return Redirect::to("./").into_response();
            };
            let Some(test) = bench.named(fields.one("test")) else {
                let says = "There is no such test: the plan was changed since this page was shown.";
                return (StatusCode::NOT_FOUND, Html(view::refused(says))).into_response();
            };
            let typed = match fields.one("open") {
                // Whoever types a unit means that one.
                "" => match fields.one("reading").contains(char::is_alphabetic) {
                    true => fields.one("reading").to_owned(),
                    false => format!("{} {}", fields.one("reading"), fields.one("unit")),
                },
                open => open.to_owned(),
            };
            match job::reading(bench.tests[test].probe, &typed, bench.nominal()) {
                Ok(value) => {
                    let what = Noted::Reading {
                        test: bench.name(test),
                        value,
                    };
                    noted(
                        kept,
                        (what, fields.one("who")),
                        &format!("test?n={}", test + 1),
                    )
                }
                Err(why) => {
                    let page = one(job, kept, test + 1, Some(&why));
                    let page = page.unwrap_or_else(|| unread("the plan has errors"));
                    (StatusCode::UNPROCESSABLE_ENTITY, page).into_response()
                }
            }
        })
        .await
}

/// Something that was seen.
pub(super) async fn seen(posted: Posted) -> Answer {
    posted
        .with_best(|job, kept, fields| {
            let loom = job.loom();
            let symptom = loom.and_then(|l| Some((l, Symptom::read(l, fields.one("symptom"))?)));
            match symptom {
                Some((loom, symptom)) => {
                    noted(kept, (Noted::Seen(symptom.word(loom)), ""), "prove")
                }
                None => Redirect::to("prove#seen").into_response(),
            }
        })
        .await
}

/// Something was built otherwise than planned.
pub(super) async fn built(posted: Posted) -> Answer {
    posted
        .with_best(|job, kept, fields| {
            let what = match fields.one("what") {
                "length" => "length",
                "colour" => "colour",
                _ => "size",
            };
            let path = entry("wire", fields.one("wire"));
            let built = match job.built(&format!("{path}.{what}"), fields.one("is").trim()) {
                Ok(built) => built,
                Err(why) => {
                    let page = view::refused(&format!("That can’t be put into the plan: {why}."));
                    return (StatusCode::UNPROCESSABLE_ENTITY, Html(page)).into_response();
                }
            };
            let text = job.sources().first().map_or("", |s| s.text.as_str());
            let change = Change {
                seen: &revision(text),
                text: &built.text,
                words: "what was really fitted",
                at: "",
            };
            match kept.put(&change) {
                Sent::Kept => noted(kept, (built.noted, ""), "prove"),
                Sent::Changed { there, sent } => {
                    (StatusCode::CONFLICT, Html(text::conflict(&there, &sent))).into_response()
                }
                Sent::Failed { why, sent } => {
                    let page = text::failed(&why, &sent, &revision(text));
                    (StatusCode::INTERNAL_SERVER_ERROR, Html(page)).into_response()
                }
            }
        })
        .await
}

/// A search begins anew.
pub(super) async fn afresh(posted: Posted) -> Answer {
    posted
        .with_best(|_, kept, _| noted(kept, (Noted::Fresh, ""), "prove"))
        .await
}
