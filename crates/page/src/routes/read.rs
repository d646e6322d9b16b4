//! The pages of a plan.

use super::{Answer, away, html, plan};
use crate::asked::Asked;
use crate::desk::Desk;
use crate::kept::{Kept, Seen};
use crate::{bench, steps, text, view};
use axum::extract::{Path, Query, State};
use axum::http::{HeaderMap, HeaderValue, StatusCode, header};
use axum::response::{Html, IntoResponse, Redirect, Response};
use job::Job;
use job::record::ticks;
use maud::{PreEscaped, html as markup};
use std::collections::BTreeMap;
use std::sync::Arc;

pub(super) type Pairs = Query<BTreeMap<String, String>>;

/// Why the texts can't be had.
pub(super) fn unread(why: &str) -> Response {
    (StatusCode::NOT_FOUND, Html(view::unread(why))).into_response()
}

/// Whether the script asks, which wants the parts of the page alone.
pub(super) fn wants_parts(headers: &HeaderMap) -> bool {
    headers.get("x-wants").is_some_and(|w| w == "parts")
}

/// The page that one works at. The script learns where it now is: an entry may have got another name.
pub(super) fn shown(seen: &Seen, asked: &Asked, parts: bool) -> Response {
    let page = match parts {
        true => bench::fragment(seen, asked),
        false => bench::page(seen, asked),
    };
    let mut answer = html(&page);
    if let Ok(now) = HeaderValue::from_str(&asked.href()) {
        answer.headers_mut().insert("x-now", now);
    }
    answer
}

pub(super) async fn bench(
    State(desk): State<Arc<Desk>>,
    Path(name): Path<String>,
    Query(query): Pairs,
    headers: HeaderMap,
) -> Answer {
    let kept = plan(&desk, &name)?;
    let asked = Asked::read(&query);
    let parts = wants_parts(&headers);
    away(&desk, move || match kept.seen() {
        Err(why) => unread(&why),
        Ok(seen) => {
            let answer = shown(&seen, &asked, parts);
            kept.heard();
            answer
        }
    })
    .await
}

/// A page made of the job with its best sizes; a plan with errors leads back to where they are shown.
async fn made(
    desk: &Desk,
    name: &str,
    make: impl FnOnce(&Job, &Kept) -> Option<Response> + Send + 'static,
) -> Answer {
    let kept = plan(desk, name)?;
    away(desk, move || match kept.best() {
        Err(why) => unread(&why),
        Ok(job) if job.loom().is_none() => Redirect::to("./").into_response(),
        Ok(job) => make(&job, &kept).unwrap_or_else(|| Redirect::to("./").into_response()),
    })
    .await
}

pub(super) async fn report(State(desk): State<Arc<Desk>>, Path(name): Path<String>) -> Answer {
    let page = |job: &Job, _: &Kept| Some(html(&view::document("report", job, &job.report(true)?)));
    made(&desk, &name, page).await
}

pub(super) async fn lists(State(desk): State<Arc<Desk>>, Path(name): Path<String>) -> Answer {
    made(&desk, &name, |job, _| {
        let content = job.lists_report()?;
        let files = job.lists_csv().unwrap_or_default();
        let body = markup! {
            (view::rooms("lists", Some(job)))
            p { "As tables for a spreadsheet: " @for (name, _) in &files { a href={ "lists/" (name) ".csv" } { (name) } " " } }
            (job::pack::fragment(&content))
        };
        Some(html(&view::around(&content.title, &body)))
    })
    .await
}

pub(super) async fn lists_csv(
    State(desk): State<Arc<Desk>>,
    Path((name, file)): Path<(String, String)>,
) -> Answer {
    made(&desk, &name, move |job, _| {
        let files = job.lists_csv().unwrap_or_default();
        let mut files = files.into_iter();
        let found = files.find(|(n, _)| format!("{n}.csv") == file);
        Some(match found {
            Some((_, bytes)) => {
                let kind = (header::CONTENT_TYPE, "text/csv; charset=utf-8");
                let saved = (header::CONTENT_DISPOSITION, "attachment");
                ([kind, saved], bytes).into_response()
            }
            None => (
                StatusCode::NOT_FOUND,
                Html(view::not_there("There is no list of this name.")),
            )
                .into_response(),
        })
    })
    .await
}

/// How long the battery bears what hangs on it, at 25 °C or as the address says; a day of use.
pub(super) async fn supply(
    State(desk): State<Arc<Desk>>,
    Path(name): Path<String>,
    Query(query): Pairs,
) -> Answer {
    made(&desk, &name, move |job, _| {
        let at = query.get("at").map_or(USUAL, String::as_str);
        let read = job::quantity::read::<job::quantity::ThermodynamicTemperature>(at);
        let read = read.and_then(|t| job::quantity::bounds::BATTERY_HEAT.check(t));
        let battery = match read {
            Ok(t) => t,
            Err(e) => {
                let says = format!("{}: {}.", e.what, e.mend);
                return Some(
                    (StatusCode::UNPROCESSABLE_ENTITY, Html(view::refused(&says))).into_response(),
                );
            }
        };
        let answers = match job.supply(battery)? {
            Ok(answers) => answers,
            Err(amiss) => {
                let says = format!(
                    "{}: {}.",
                    amiss.says(job.loom()?),
                    job::study::UNSOLVED_MEND
                );
                return Some(Html(view::refused(&says)).into_response());
            }
        };
        let chart = job.day_chart(&answers);
        let content = job.supply_report(&answers, chart.as_ref())?;
        let body = markup! {
            (view::rooms("supply", Some(job)))
            form.entry method="get" action="supply" {
                div.field {
                    label for="at" { "How warm is the battery?" }
                    input id="at" name="at" value=(at) autocomplete="off";
                }
                button.plain type="submit" { "Reckon with that" }
            }
            (job::pack::fragment(&content))
            p.source { "A day of use is told part by part under “A day” of the plan." }
        };
        Some(html(&view::around(&content.title, &body)))
    })
    .await
}

/// At which batteries are rated, unless somebody says otherwise.
const USUAL: &str = "25 °C";

/// The loom board, and where it runs.
pub(super) async fn loom(State(desk): State<Arc<Desk>>, Path(name): Path<String>) -> Answer {
    made(&desk, &name, |job, _| {
        let title = &job.plan()?.job.title;
        let loom = job.loom()?;
        let sheets: Vec<_> = job.board().into_iter().chain(job.route()).collect();
        let body = markup! {
            (view::rooms("loom", Some(job)))
            header { h1 { (title) ": the loom" } }
            main {
                @for sheet in &sheets {
                    figure {
                        div.drawing.broad tabindex="0" role="group" aria-label=(sheet.title) { (PreEscaped(&sheet.svg)) }
                        figcaption { (sheet.title) " · " a href={ "drawing?name=" (sheet.name) } { "alone" } }
                    }
                }
                h2 { "Why each wire is as it is" }
                p.wires { @for w in &loom.wires { a href={ "./?why=" (w.name) "#why" } { (w.name) } " " } }
            }
        };
        Some(html(&view::around(title, &body)))
    })
    .await
}

pub(super) async fn steps(State(desk): State<Arc<Desk>>, Path(name): Path<String>) -> Answer {
    let page =
        |job: &Job, kept: &Kept| Some(html(&steps::all(job, &ticks(&kept.shelf().record()))?));
    made(&desk, &name, page).await
}

pub(super) async fn step(
    State(desk): State<Arc<Desk>>,
    Path(name): Path<String>,
    Query(query): Pairs,
) -> Answer {
    let number = query.get("n").and_then(|n| n.parse().ok()).unwrap_or(1);
    made(&desk, &name, move |job, kept| {
        Some(html(&steps::one(
            job,
            &ticks(&kept.shelf().record()),
            number,
        )?))
    })
    .await
}

pub(super) async fn before(State(desk): State<Arc<Desk>>, Path(name): Path<String>) -> Answer {
    let kept = plan(&desk, &name)?;
    away(&desk, move || {
        html(&text::before(&text::versions(kept.shelf())))
    })
    .await
}

/// The number of a version that an address asks for.
fn number(query: &BTreeMap<String, String>) -> Option<u32> {
    query.get("n")?.parse().ok()
}

fn no_version() -> Response {
    let says = "There is no such version of the plan; the last hundred are kept.";
    (StatusCode::NOT_FOUND, Html(view::not_there(says))).into_response()
}

pub(super) async fn version(
    State(desk): State<Arc<Desk>>,
    Path(name): Path<String>,
    Query(query): Pairs,
) -> Answer {
    let kept = plan(&desk, &name)?;
    away(&desk, move || {
        let shelf = kept.shelf();
        let now = shelf.read().ok().map(|(plan, _)| plan);
        let then = number(&query).and_then(|n| Some((n, shelf.version(n)?)));
        match now.zip(then) {
            Some((now, (n, text))) => html(&text::version(n, &text, &now)),
            None => no_version(),
        }
    })
    .await
}

/// The plan beside what it was.
pub(super) async fn compare(
    State(desk): State<Arc<Desk>>,
    Path(name): Path<String>,
    Query(query): Pairs,
) -> Answer {
    let kept = plan(&desk, &name)?;
    away(&desk, move || {
        let Some(n) = number(&query) else {
            return html(&text::compare(&text::versions(kept.shelf())));
        };
        let (now, then) = (kept.best(), kept.shelf().version(n));
        let (Ok(now), Some(text)) = (now, then) else {
            return no_version();
        };
        let source = job::Source {
            name: format!("version {n}"),
            text,
        };
        let stock = now.sources().get(1..).unwrap_or_default().to_vec();
        let then = Job::read(source, stock);
        let content = then.compare(&now).and_then(|c| then.comparison(&now, &c));
        match content {
            Some(content) => html(&view::document("compare", &now, &content)),
            None => html(&text::not_compared(n)),
        }
    })
    .await
}

pub(super) async fn drawing(
    State(desk): State<Arc<Desk>>,
    Path(name): Path<String>,
    Query(query): Pairs,
) -> Answer {
    made(&desk, &name, move |job, _| {
        let wanted = query.get("name")?;
        let sheet = job.drawings().into_iter().find(|s| s.name == *wanted);
        Some(match sheet {
            Some(s) => ([(header::CONTENT_TYPE, "image/svg+xml")], s.svg).into_response(),
            None => (
                StatusCode::NOT_FOUND,
                Html(view::not_there("There is no drawing of this name.")),
            )
                .into_response(),
        })
    })
    .await
}
