//! Every route in one table, and what each answers.

use crate::Shelf;
use crate::guard::guard;
use crate::kept::Kept;
use crate::plan::{self, Sent};
use crate::{chosen, live, view};
use axum::Router;
use axum::extract::{DefaultBodyLimit, Form, Query, State};
use axum::http::{HeaderMap, HeaderName, HeaderValue, StatusCode, header};
use axum::response::{Html, IntoResponse, Redirect, Response};
use axum::routing::get;
use job::Job;
use std::collections::BTreeMap;
use std::sync::Arc;
use tower_http::compression::CompressionLayer;
use tower_http::set_header::SetResponseHeaderLayer;

/// The job, as the texts are now.
type Load = Arc<Kept>;

/// Nothing from elsewhere; scripts of our own only, none within a page.
const POLICY: &str = "default-src 'none'; script-src 'self'; connect-src 'self'; style-src 'self'; img-src 'self' data:; base-uri 'none'; form-action 'self'; frame-ancestors 'none'";

/// The largest form that is taken, bytes: a plan of thousands of circuits.
const LARGEST: usize = 2_000_000;

/// The routes.
pub(crate) fn router(load: Load) -> Router {
    let always = |name: HeaderName, value: &'static str| {
        SetResponseHeaderLayer::overriding(name, HeaderValue::from_static(value))
    };
    Router::new()
        .route("/", get(report))
        .route("/style.css", get(style))
        .route("/drawings.css", get(dark))
        .route("/live", get(live_page))
        .route("/live.js", get(script))
        .route("/faults", get(faults))
        .route("/circuit/{name}", get(drawing))
        .route("/plan", get(plan_page).post(plan_sent))
        .route("/plan/before", get(plan_before))
        .route("/plan/before/{number}", get(plan_version))
        .layer(CompressionLayer::new())
        .layer(DefaultBodyLimit::max(LARGEST))
        .layer(axum::middleware::from_fn(guard))
        .layer(always(header::CONTENT_SECURITY_POLICY, POLICY))
        // The part that shows a state has the page's own address; and Back shows no plan that is no longer there.
        .layer(always(header::CACHE_CONTROL, "no-store"))
        .layer(always(header::X_CONTENT_TYPE_OPTIONS, "nosniff"))
        .layer(always(header::REFERRER_POLICY, "same-origin"))
        .with_state(load)
}

async fn style() -> impl IntoResponse {
    (
        [(header::CONTENT_TYPE, "text/css; charset=utf-8")],
        job::pack::STYLE,
    )
}

/// What turns drawings dark on a dark screen.
async fn dark() -> impl IntoResponse {
    (
        [(header::CONTENT_TYPE, "text/css; charset=utf-8")],
        job::sheet::dark_style(),
    )
}

async fn script() -> impl IntoResponse {
    (
        [(header::CONTENT_TYPE, "text/javascript; charset=utf-8")],
        include_str!("live.js"),
    )
}

/// Works something out away from the threads that serve.
async fn away<T: Send + 'static>(
    load: Load,
    f: impl FnOnce(Result<Arc<Job>, String>) -> T + Send + 'static,
) -> Result<T, Response> {
    let worked = tokio::task::spawn_blocking(move || f(load.job())).await;
    worked.map_err(|_| (StatusCode::INTERNAL_SERVER_ERROR, Html(view::broken())).into_response())
}

/// Asks the shelf alone, away from the threads that serve: nothing is worked out, so nothing that fails there is in the way.
async fn on_shelf<T: Send + 'static>(
    load: Load,
    f: impl FnOnce(&dyn Shelf) -> T + Send + 'static,
) -> Result<T, Response> {
    let worked = tokio::task::spawn_blocking(move || f(&*load.shelf)).await;
    worked.map_err(|_| (StatusCode::INTERNAL_SERVER_ERROR, Html(view::broken())).into_response())
}

/// A page of a job that can be read; else why it can't.
async fn page(
    load: Load,
    make: impl FnOnce(&Job) -> Option<String> + Send + 'static,
) -> Result<Response, Response> {
    away(load, |job| match job {
        Err(why) => (StatusCode::NOT_FOUND, Html(view::unread(&why))).into_response(),
        Ok(job) => match make(&job) {
            Some(page) => Html(view::unstyled(&page)).into_response(),
            None => (StatusCode::UNPROCESSABLE_ENTITY, Html(view::errors(&job))).into_response(),
        },
    })
    .await
}

async fn report(State(load): State<Load>) -> Result<Response, Response> {
    page(load, |job| Some(view::report(&job.report(true)?))).await
}

async fn faults(State(load): State<Load>) -> Result<Response, Response> {
    page(load, view::faults).await
}

/// The live circuit; the part that shows the state alone for the script.
async fn live_page(
    State(load): State<Load>,
    Query(query): Query<BTreeMap<String, String>>,
    headers: HeaderMap,
) -> Result<Response, Response> {
    let part = headers.get("x-wants").is_some_and(|w| w == "state");
    page(load, move |job| {
        let chosen = chosen::read(job.loom()?, &query);
        let fault = chosen::Fault::read(&query);
        match part {
            true => Some(live::state(job, &chosen, &fault)?.into_string()),
            false => Some(view::around(
                &format!("{}: live", job.plan()?.job.title),
                &live::body(job, &chosen, &fault)?,
            )),
        }
    })
    .await
}

async fn drawing(
    State(load): State<Load>,
    axum::extract::Path(name): axum::extract::Path<String>,
) -> Result<Response, Response> {
    away(load, move |job| {
        let sheets = job.map(|job| job.drawings()).unwrap_or_default();
        let mut sheets = sheets.into_iter();
        match sheets.find(|s| format!("{}.svg", s.name) == name) {
            Some(sheet) => ([(header::CONTENT_TYPE, "image/svg+xml")], sheet.svg).into_response(),
            None => (StatusCode::NOT_FOUND, Html(view::no_drawing(&name))).into_response(),
        }
    })
    .await
}

async fn plan_page(State(load): State<Load>) -> Result<Response, Response> {
    away(load, |job| match job {
        Err(why) => (StatusCode::NOT_FOUND, Html(view::unread(&why))).into_response(),
        Ok(job) => Html(plan::page(&job)).into_response(),
    })
    .await
}

/// A form with a plan.
#[derive(serde::Deserialize)]
struct PlanForm {
    /// Which text its writer saw.
    seen: String,
    /// What is to be there instead.
    text: String,
}

async fn plan_sent(
    State(load): State<Load>,
    Form(form): Form<PlanForm>,
) -> Result<Response, Response> {
    on_shelf(load, move |shelf| {
        match plan::keep(shelf, &form.seen, &form.text) {
            Sent::Kept => Redirect::to("/plan").into_response(),
            Sent::Changed { there, sent } => {
                (StatusCode::CONFLICT, Html(plan::conflict(&there, &sent))).into_response()
            }
            Sent::Failed { why, sent } => {
                let page = plan::failed(&why, &sent, &form.seen);
                (StatusCode::INTERNAL_SERVER_ERROR, Html(page)).into_response()
            }
        }
    })
    .await
}

async fn plan_before(State(load): State<Load>) -> Result<Response, Response> {
    on_shelf(load, |shelf| {
        Html(plan::before(&shelf.versions())).into_response()
    })
    .await
}

async fn plan_version(
    State(load): State<Load>,
    axum::extract::Path(number): axum::extract::Path<u32>,
) -> Result<Response, Response> {
    on_shelf(load, move |shelf| {
        let now = shelf.read().ok().map(|(plan, _)| plan);
        match now.zip(shelf.version(number)) {
            Some((now, text)) => Html(plan::version(number, &text, &now)).into_response(),
            None => (StatusCode::NOT_FOUND, Html(view::no_version(number))).into_response(),
        }
    })
    .await
}
