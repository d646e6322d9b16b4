//! Every route in one table. A plan has its own addresses under its name.
//!
//! | file | what it answers |
//! |---|---|
//! | `open` | which plans there are, a new one, pairing |
//! | `read` | the pages of a plan |
//! | `edit` | what changes it |
//! | `work` | what takes a while: the pack, every fault |
//! | `prove` | proving with a meter |
//! | `events` | that something changed |

mod edit;
mod events;
mod open;
mod prove;
mod read;
mod work;

use crate::desk::Desk;
use crate::guard::guard;
use crate::kept::Kept;
use crate::view;
use axum::Router;
use axum::extract::{DefaultBodyLimit, Request};
use axum::http::{HeaderName, HeaderValue, StatusCode, header};
use axum::middleware::Next;
use axum::response::{Html, IntoResponse, Response};
use axum::routing::{MethodRouter, get, post};
use std::sync::Arc;
use tower_http::CompressionLevel;
use tower_http::compression::CompressionLayer;
use tower_http::set_header::SetResponseHeaderLayer;

/// Nothing from elsewhere; scripts of our own only, none within a page.
const POLICY: &str = "default-src 'none'; script-src 'self'; connect-src 'self'; style-src 'self'; img-src 'self' data:; base-uri 'none'; form-action 'self'; frame-ancestors 'none'";

/// The largest form that is taken, bytes: a plan of thousands of circuits.
const LARGEST: usize = 2_000_000;

/// The routes.
pub(crate) fn router(desk: Arc<Desk>) -> Router {
    let always = |name: HeaderName, value: &'static str| {
        SetResponseHeaderLayer::overriding(name, HeaderValue::from_static(value))
    };
    let of_a_plan: Vec<(&str, MethodRouter<Arc<Desk>>)> = vec![
        ("/", get(read::bench)),
        ("/report", get(read::report)),
        ("/supply", get(read::supply)),
        ("/loom", get(read::loom)),
        ("/lists", get(read::lists)),
        ("/lists/{name}", get(read::lists_csv)),
        ("/steps", get(read::steps)),
        ("/step", get(read::step)),
        ("/tick", post(edit::tick)),
        ("/prove", get(prove::all)),
        ("/test", get(prove::test)),
        ("/read", post(prove::read)),
        ("/seen", post(prove::seen)),
        ("/built", post(prove::built)),
        ("/afresh", post(prove::afresh)),
        ("/compare", get(read::compare)),
        ("/before", get(read::before)),
        ("/version", get(read::version)),
        ("/drawing", get(read::drawing)),
        ("/faults", get(work::faults)),
        ("/pack", get(work::pack).post(work::make_pack)),
        ("/made", get(work::made)),
        ("/text", post(edit::text)),
        ("/set", post(edit::set)),
        ("/add", post(edit::add)),
        ("/make", post(edit::make)),
        ("/remove", post(edit::remove)),
        ("/undo", post(edit::undo)),
        ("/redo", post(edit::redo)),
        ("/mend", post(edit::mend)),
        ("/apply", post(edit::apply)),
        ("/events", get(events::events)),
    ];
    let mut router = Router::new();
    for (path, answers) in of_a_plan {
        router = router.route(&format!("/{{plan}}{path}"), answers);
    }
    router
        .route("/{plan}", get(open::with_a_slash))
        .route("/", get(open::plans))
        .route("/new", get(open::questions).post(open::create))
        .route("/pair", get(open::code).post(open::pair))
        .route("/style.css", get(|| css(job::pack::STYLE.to_owned())))
        .route(
            "/page.css",
            get(|| css(include_str!("../page.css").to_owned())),
        )
        // What turns drawings dark on a dark screen.
        .route("/drawings.css", get(|| css(job::sheet::dark_style())))
        .route("/page.js", get(|| js(include_str!("../page.js"))))
        .route("/morph.js", get(|| js(include_str!("../morph.js"))))
        .route("/drag.js", get(|| js(include_str!("../drag.js"))))
        .route("/sight.js", get(|| js(include_str!("../sight.js"))))
        .route("/icon.svg", get(icon))
        .fallback(nowhere)
        .layer(CompressionLayer::new().quality(CompressionLevel::Fastest))
        .layer(axum::middleware::from_fn(friendly))
        .layer(DefaultBodyLimit::max(LARGEST))
        .layer(axum::middleware::from_fn_with_state(
            Arc::clone(&desk),
            guard,
        ))
        .layer(always(header::CONTENT_SECURITY_POLICY, POLICY))
        // A part of a page has the page's own address; and Back shows no plan that is no longer there.
        .layer(always(header::CACHE_CONTROL, "no-store"))
        .layer(always(header::X_CONTENT_TYPE_OPTIONS, "nosniff"))
        .layer(always(header::REFERRER_POLICY, "same-origin"))
        .with_state(desk)
}

async fn css(text: String) -> impl IntoResponse {
    ([(header::CONTENT_TYPE, "text/css; charset=utf-8")], text)
}

async fn js(text: &'static str) -> impl IntoResponse {
    (
        [(header::CONTENT_TYPE, "text/javascript; charset=utf-8")],
        text,
    )
}

/// A spur: a line that leaves another.
async fn icon() -> impl IntoResponse {
    const ICON: &str = r##"<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 32 32"><rect width="32" height="32" rx="5" fill="#fdfcf9"/><path d="M4 22h24M12 22c6 0 6-13 14-13" fill="none" stroke="#1d1d1b" stroke-width="3.4"/><circle cx="12" cy="22" r="3.6" fill="#a4161a"/></svg>"##;
    ([(header::CONTENT_TYPE, "image/svg+xml")], ICON)
}

async fn nowhere() -> Response {
    (
        StatusCode::NOT_FOUND,
        Html(view::not_there("There is no page at this address.")),
    )
        .into_response()
}

/// What a form is answered that can't be taken, as a page that a person can read.
async fn friendly(request: Request, next: Next) -> Response {
    let answer = next.run(request).await;
    let says = match answer.status() {
        StatusCode::PAYLOAD_TOO_LARGE => {
            "That is larger than any plan: two million letters at most."
        }
        StatusCode::UNSUPPORTED_MEDIA_TYPE => "That is no form of this page.",
        StatusCode::BAD_REQUEST | StatusCode::UNPROCESSABLE_ENTITY if !is_page(&answer) => {
            "That form lacks something that this page would have sent."
        }
        StatusCode::METHOD_NOT_ALLOWED => "That page takes no such request.",
        _ => return answer,
    };
    (answer.status(), Html(view::refused(says))).into_response()
}

fn is_page(answer: &Response) -> bool {
    let kind = answer.headers().get(header::CONTENT_TYPE);
    kind.and_then(|k| k.to_str().ok())
        .is_some_and(|k| k.starts_with("text/html"))
}

/// An answer that ends what was asked for.
pub(crate) struct Refusal(Box<Response>);

impl From<Response> for Refusal {
    fn from(answer: Response) -> Self {
        Self(Box::new(answer))
    }
}

impl IntoResponse for Refusal {
    fn into_response(self) -> Response {
        *self.0
    }
}

/// What a route gives.
type Answer = Result<Response, Refusal>;

/// A plan by its name, or the page that says that there is none.
fn plan(desk: &Desk, name: &str) -> Result<Arc<Kept>, Refusal> {
    desk.plan(name).ok_or_else(|| {
        let says = format!("There is no plan called {name} here.");
        (StatusCode::NOT_FOUND, Html(view::not_there(&says)))
            .into_response()
            .into()
    })
}

/// Works something out away from the threads that serve, so many things at once at most.
async fn away<T: Send + 'static>(
    desk: &Desk,
    f: impl FnOnce() -> T + Send + 'static,
) -> Result<T, Refusal> {
    let broken =
        || Refusal::from((StatusCode::INTERNAL_SERVER_ERROR, Html(view::broken())).into_response());
    let _one = desk.rates.work.acquire().await.map_err(|_| broken())?;
    tokio::task::spawn_blocking(f).await.map_err(|_| broken())
}

/// A page; drawings in it without styles of their own.
fn html(page: &str) -> Response {
    Html(view::unstyled(page)).into_response()
}
