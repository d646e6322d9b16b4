//! Every route in one table, and what each answers.

use crate::{Texts, view};
use axum::Router;
use axum::extract::State;
use axum::http::{HeaderName, HeaderValue, StatusCode, header};
use axum::response::{Html, IntoResponse, Response};
use axum::routing::get;
use job::Job;
use std::sync::Arc;
use tower_http::set_header::SetResponseHeaderLayer;

/// Hands the texts in.
type Load = Arc<dyn Fn() -> Texts + Send + Sync>;

/// Nothing from elsewhere, no script at all.
const POLICY: &str = "default-src 'none'; style-src 'self'; img-src 'self' data:; base-uri 'none'; form-action 'self'; frame-ancestors 'none'";

/// The routes.
pub(crate) fn router(load: Load) -> Router {
    let always = |name: HeaderName, value: &'static str| {
        SetResponseHeaderLayer::overriding(name, HeaderValue::from_static(value))
    };
    Router::new()
        .route("/", get(report))
        .route("/style.css", get(style))
        .route("/faults", get(faults))
        .route("/circuit/{name}", get(drawing))
        .layer(always(header::CONTENT_SECURITY_POLICY, POLICY))
        .layer(always(header::X_CONTENT_TYPE_OPTIONS, "nosniff"))
        .layer(always(header::REFERRER_POLICY, "no-referrer"))
        .with_state(load)
}

async fn style() -> impl IntoResponse {
    (
        [
            (header::CONTENT_TYPE, "text/css; charset=utf-8"),
            (header::CACHE_CONTROL, "no-cache"),
        ],
        job::pack::STYLE,
    )
}

/// Works something out away from the threads that serve.
async fn away<T: Send + 'static>(
    load: Load,
    f: impl FnOnce(Texts) -> T + Send + 'static,
) -> Result<T, Response> {
    let worked = tokio::task::spawn_blocking(move || f(load())).await;
    worked.map_err(|_| (StatusCode::INTERNAL_SERVER_ERROR, Html(view::broken())).into_response())
}

async fn report(State(load): State<Load>) -> Result<Response, Response> {
    away(load, |texts| match texts {
        Err(why) => (StatusCode::NOT_FOUND, Html(view::unread(&why))).into_response(),
        Ok((plan, stock)) => {
            let job = Job::read(plan, stock);
            match job.report(true) {
                Some(content) => Html(view::report(&content)).into_response(),
                None => {
                    (StatusCode::UNPROCESSABLE_ENTITY, Html(view::errors(&job))).into_response()
                }
            }
        }
    })
    .await
}

async fn faults(State(load): State<Load>) -> Result<Response, Response> {
    away(load, |texts| match texts {
        Err(why) => (StatusCode::NOT_FOUND, Html(view::unread(&why))).into_response(),
        Ok((plan, stock)) => {
            let job = Job::read(plan, stock);
            match view::faults(&job) {
                Some(page) => Html(page).into_response(),
                None => {
                    (StatusCode::UNPROCESSABLE_ENTITY, Html(view::errors(&job))).into_response()
                }
            }
        }
    })
    .await
}

async fn drawing(
    State(load): State<Load>,
    axum::extract::Path(name): axum::extract::Path<String>,
) -> Result<Response, Response> {
    away(load, move |texts| {
        let sheets = texts
            .map(|(plan, stock)| Job::read(plan, stock).drawings())
            .unwrap_or_default();
        match sheets
            .into_iter()
            .find(|s| format!("{}.svg", s.name) == name)
        {
            Some(sheet) => ([(header::CONTENT_TYPE, "image/svg+xml")], sheet.svg).into_response(),
            None => (StatusCode::NOT_FOUND, Html(view::no_drawing(&name))).into_response(),
        }
    })
    .await
}
