//! Who may ask: a browser that was pointed at this machine by its own name or number; from another machine only one that was
//! paired. A page from elsewhere that is made to ask in a browser's name brings its `Origin`; a name that was bent to this
//! machine brings itself as `Host`.

use crate::desk::Desk;
use crate::view;
use axum::extract::{ConnectInfo, Request, State};
use axum::http::{HeaderMap, Method, StatusCode, header};
use axum::middleware::Next;
use axum::response::{Html, IntoResponse, Redirect, Response};
use std::net::{IpAddr, SocketAddr};
use std::sync::Arc;

fn text(headers: &HeaderMap, name: header::HeaderName) -> Option<&str> {
    headers.get(name)?.to_str().ok()
}

/// A host without its port.
fn name(host: &str) -> &str {
    match host.rsplit_once(':') {
        Some((name, port)) if port.bytes().all(|b| b.is_ascii_digit()) => name,
        _ => host,
    }
}

/// Whether a host is this machine by a name that nobody else can give out: its own, or a number. `lan`: any number will do.
fn is_ours(host: &str, lan: bool) -> bool {
    let name = name(host).trim_start_matches('[').trim_end_matches(']');
    match name.parse::<IpAddr>() {
        Ok(address) => {
            lan || address == IpAddr::from([127, 0, 0, 1])
                || address == IpAddr::from([0, 0, 0, 0, 0, 0, 0, 1])
        }
        Err(_) => name == "localhost",
    }
}

/// Why a request is refused, if it is.
fn refusal(method: &Method, headers: &HeaderMap, lan: bool) -> Option<&'static str> {
    let host = text(headers, header::HOST).unwrap_or_default();
    if !is_ours(host, lan) {
        return Some("this page answers to its own machine’s name only");
    }
    // Browsers say with every request whose page made it, pictures and links too.
    let made_by = headers.get("sec-fetch-site").and_then(|v| v.to_str().ok());
    if made_by.is_some_and(|by| !matches!(by, "same-origin" | "none")) {
        return Some("the request comes from another page");
    }
    let own = |origin: &str| origin.strip_prefix("http://") == Some(host);
    match text(headers, header::ORIGIN) {
        Some(origin) if !own(origin) => Some("the request comes from another page"),
        // A browser says where a form comes from.
        None if *method != Method::GET && *method != Method::HEAD => {
            Some("the request does not say where it comes from")
        }
        _ => None,
    }
}

/// What an unpaired browser may have: where the code is told, and what makes that page look like the others.
const OPEN: [&str; 4] = ["/pair", "/style.css", "/page.css", "/icon.svg"];

/// Lets through what may ask.
pub(crate) async fn guard(
    State(desk): State<Arc<Desk>>,
    ConnectInfo(from): ConnectInfo<SocketAddr>,
    request: Request,
    next: Next,
) -> Response {
    if !desk.rates.takes(from.ip()) {
        let page = view::refused("That was too many requests at once: wait ten seconds.");
        return (StatusCode::TOO_MANY_REQUESTS, Html(page)).into_response();
    }
    let lan = desk.pairing.is_some();
    if let Some(why) = refusal(request.method(), request.headers(), lan) {
        return (StatusCode::FORBIDDEN, why).into_response();
    }
    let here = from.ip().to_canonical().is_loopback();
    let cookies = text(request.headers(), header::COOKIE).unwrap_or_default();
    let known = here || desk.pairing.as_ref().is_some_and(|p| p.knows(cookies));
    match known || OPEN.contains(&request.uri().path()) {
        true => next.run(request).await,
        false if *request.method() == Method::GET => Redirect::to("/pair").into_response(),
        false => (
            StatusCode::FORBIDDEN,
            "this browser is not paired: open /pair",
        )
            .into_response(),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn asked(method: Method, host: &str, origin: Option<&str>, lan: bool) -> bool {
        let mut headers = HeaderMap::new();
        headers.insert(header::HOST, host.parse().unwrap());
        if let Some(origin) = origin {
            headers.insert(header::ORIGIN, origin.parse().unwrap());
        }
        refusal(&method, &headers, lan).is_none()
    }

    #[test]
    fn what_another_page_shows_or_links_to_is_not_answered() {
        let mut headers = HeaderMap::new();
        headers.insert(header::HOST, "127.0.0.1:8012".parse().unwrap());
        for (by, answered) in [
            ("none", true),
            ("same-origin", true),
            ("cross-site", false),
            ("same-site", false),
        ] {
            headers.insert("sec-fetch-site", by.parse().unwrap());
            let refused = refusal(&Method::GET, &headers, false);
            assert_eq!(refused.is_none(), answered, "{by}");
        }
    }

    #[test]
    fn only_this_machines_own_pages_ask() {
        let here = "127.0.0.1:8012";
        assert!(asked(Method::GET, here, None, false));
        assert!(asked(Method::GET, "localhost:8012", None, false));
        assert!(asked(Method::GET, "[::1]:8012", None, false));
        assert!(asked(
            Method::POST,
            here,
            Some("http://127.0.0.1:8012"),
            false
        ));
        assert!(!asked(Method::GET, "plan.example:8012", None, false));
        assert!(!asked(Method::GET, "127.0.0.1.example", None, false));
        assert!(!asked(Method::GET, "10.0.0.7:8012", None, false));
        assert!(!asked(Method::POST, here, None, false));
        for other in [
            "http://plan.example",
            "null",
            "http://127.0.0.1:9",
            "http://localhost:8012",
        ] {
            assert!(!asked(Method::POST, here, Some(other), false), "{other}");
        }
    }

    #[test]
    fn from_the_workshop_network_only_by_number() {
        let there = "192.168.1.20:8012";
        assert!(asked(Method::GET, there, None, true));
        assert!(asked(
            Method::POST,
            there,
            Some("http://192.168.1.20:8012"),
            true
        ));
        assert!(!asked(Method::GET, "plan.example:8012", None, true));
        assert!(!asked(
            Method::POST,
            there,
            Some("http://plan.example"),
            true
        ));
    }
}
