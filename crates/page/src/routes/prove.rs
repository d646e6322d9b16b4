//! Proving: the sheet, one test, and what is noted of them.

use super::edit::Posted;
use super::read::{Pairs, made, unread};
use super::{Answer, html};
use crate::desk::Desk;
use crate::kept::Kept;
use crate::{prove, view};
use axum::extract::{Path, Query, State};
use axum::http::StatusCode;
use axum::response::{Html, IntoResponse, Redirect, Response};
use job::Job;
use job::record::Noted;
use job::study::prove::Symptom;
use std::sync::Arc;

pub(super) async fn all(State(desk): State<Arc<Desk>>, Path(name): Path<String>) -> Answer {
    made(&desk, &name, |job, kept| {
        let proved = job.proved(&kept.shelf().record())?;
        Some(html(&prove::all(job, &proved)?))
    })
    .await
}

pub(super) async fn test(
    State(desk): State<Arc<Desk>>,
    Path(name): Path<String>,
    Query(query): Pairs,
) -> Answer {
    let number = query.get("n").and_then(|n| n.parse().ok()).unwrap_or(1);
    made(&desk, &name, move |job, kept| one(job, kept, number, None)).await
}

fn one(job: &Job, kept: &Kept, number: usize, wrong: Option<&str>) -> Option<Response> {
    let proved = job.proved(&kept.shelf().record())?;
    Some(html(&prove::one(job, &proved, number, wrong)?))
}

/// Notes something and goes on, or says why it could not be noted.
fn noted(kept: &Kept, what: Noted, to: &str) -> Response {
    match kept.shelf().note(what, "") {
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
            match job::reading(bench.tests[test].probe, &typed) {
                Ok(value) => {
                    let what = Noted::Reading {
                        test: bench.name(test),
                        value,
                    };
                    noted(kept, what, &format!("test?n={}", test + 1))
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
                Some((loom, symptom)) => noted(kept, Noted::Seen(symptom.word(loom)), "prove"),
                None => Redirect::to("prove#seen").into_response(),
            }
        })
        .await
}

/// A search begins anew.
pub(super) async fn afresh(posted: Posted) -> Answer {
    posted
        .with_best(|_, kept, _| noted(kept, Noted::Fresh, "prove"))
        .await
}
