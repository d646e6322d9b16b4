//! Which plans there are, a new one, and pairing.

use super::{Answer, away, html};
use crate::asked::encoded;
use crate::desk::Desk;
use crate::pair::Told;
use crate::start::{self, Answered};
use crate::view;
use axum::extract::{Form, Path, State};
use axum::http::{StatusCode, header};
use axum::response::{Html, IntoResponse, Redirect, Response};
use std::collections::BTreeMap;
use std::sync::Arc;

type Fields = Form<BTreeMap<String, String>>;

pub(super) async fn plans(State(desk): State<Arc<Desk>>) -> Answer {
    let here = Arc::clone(&desk);
    away(&desk, move || {
        let (found, takes_new) = (here.cabinet.plans(), here.cabinet.takes_new());
        match found.as_slice() {
            [only] if !takes_new => {
                Redirect::to(&format!("/{}/", encoded(&only.name))).into_response()
            }
            found => html(&start::plans(found, takes_new)),
        }
    })
    .await
}

/// The pages of a plan lie below its name.
pub(super) async fn with_a_slash(Path(name): Path<String>) -> Response {
    Redirect::to(&format!("/{}/", encoded(&name))).into_response()
}

pub(super) async fn questions() -> Response {
    html(&start::questions(&Answered {
        said: &|_| String::new(),
        wrong: None,
    }))
}

pub(super) async fn create(State(desk): State<Arc<Desk>>, Form(fields): Fields) -> Answer {
    let here = Arc::clone(&desk);
    away(&desk, move || {
        let said = |key: &str| {
            fields
                .get(key)
                .map(|v| v.trim().to_owned())
                .unwrap_or_default()
        };
        let made = match start::example(&said("example")) {
            Some(text) => Ok((said("example"), text.to_owned())),
            None => start::answered(&said),
        };
        let again = |why: &str| {
            let page = start::questions(&Answered {
                said: &said,
                wrong: Some(why),
            });
            (StatusCode::UNPROCESSABLE_ENTITY, Html(page)).into_response()
        };
        let (title, text) = match made {
            Ok(made) => made,
            Err(why) => return again(why),
        };
        let (_, errors) = job::Plan::read(&text);
        if !errors.is_empty() {
            let each = errors.iter().map(|e| format!("{}: {}.", e.says, e.mend));
            return again(&each.collect::<Vec<_>>().join(" "));
        }
        match here.cabinet.create(&title, &text) {
            Ok(name) => Redirect::to(&format!("/{}/", encoded(&name))).into_response(),
            Err(why) => {
                (StatusCode::INTERNAL_SERVER_ERROR, Html(view::refused(&why))).into_response()
            }
        }
    })
    .await
}

pub(super) async fn code() -> Response {
    html(&start::code(None))
}

pub(super) async fn pair(State(desk): State<Arc<Desk>>, Form(fields): Fields) -> Response {
    let Some(pairing) = &desk.pairing else {
        return Redirect::to("/").into_response();
    };
    let typed = fields.get("code").map_or("", String::as_str);
    let wrong = |says: &str| (StatusCode::FORBIDDEN, Html(start::code(Some(says)))).into_response();
    match pairing.tell(typed) {
        Told::Right(cookie) => ([(header::SET_COOKIE, cookie)], Redirect::to("/")).into_response(),
        Told::Wrong => wrong("That is not the code."),
        Told::Wait => {
            wrong("Too many wrong codes: wait a minute. A new code stands on the terminal.")
        }
    }
}
