//! Who may ask: nobody but a browser that was pointed at this machine by its own name. A page from elsewhere that is made to ask
//! in a browser's name brings its `Origin`; a name that was bent to this machine brings itself as `Host`.

use axum::extract::Request;
use axum::http::{HeaderMap, Method, StatusCode, header};
use axum::middleware::Next;
use axum::response::{IntoResponse, Response};

/// This machine's own names.
const NAMES: [&str; 3] = ["127.0.0.1", "localhost", "[::1]"];

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

/// Why a request is refused, if it is.
fn refusal(method: &Method, headers: &HeaderMap) -> Option<&'static str> {
    let host = text(headers, header::HOST).unwrap_or_default();
    if !NAMES.contains(&name(host)) {
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

/// Lets through what may ask.
pub(crate) async fn guard(request: Request, next: Next) -> Response {
    match refusal(request.method(), request.headers()) {
        Some(why) => (StatusCode::FORBIDDEN, why).into_response(),
        None => next.run(request).await,
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn asked(method: Method, host: &str, origin: Option<&str>) -> bool {
        let mut headers = HeaderMap::new();
        headers.insert(header::HOST, host.parse().unwrap());
        if let Some(origin) = origin {
            headers.insert(header::ORIGIN, origin.parse().unwrap());
        }
        refusal(&method, &headers).is_none()
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
            assert_eq!(refusal(&Method::GET, &headers).is_none(), answered, "{by}");
        }
    }

    #[test]
    fn only_this_machines_own_pages_ask() {
        let here = "127.0.0.1:8012";
        assert!(asked(Method::GET, here, None));
        assert!(asked(Method::GET, "localhost:8012", None));
        assert!(asked(Method::POST, here, Some("http://127.0.0.1:8012")));
        assert!(!asked(Method::GET, "plan.example:8012", None));
        assert!(!asked(Method::GET, "127.0.0.1.example", None));
        assert!(!asked(Method::POST, here, None));
        for other in [
            "http://plan.example",
            "null",
            "http://127.0.0.1:9",
            "http://localhost:8012",
        ] {
            assert!(!asked(Method::POST, here, Some(other)), "{other}");
        }
    }
}
