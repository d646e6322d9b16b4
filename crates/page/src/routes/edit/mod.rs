//! What changes a plan. A change is made to the text that is there; what somebody else changed meanwhile at another place stays,
//! and at the same place it is shown, and nothing is lost.
//!
//! | file | what |
//! |---|---|
//! | `answers` | answers put into the text |
//! | `mend` | mends of what is found |

mod answers;
mod mend;

use super::read::{Pairs, shown, unread, wants_parts};
use super::{Answer, away, plan};
use crate::asked::Asked;
use crate::desk::Desk;
use crate::kept::{Change, Kept, Sent};
use crate::{steps, text, view};
use answers::{Wanted, edit, follow, newly_wrong, wanted};
use axum::extract::{Form, FromRequest, FromRequestParts, Path, Query, Request};
use axum::http::StatusCode;
use axum::response::{Html, IntoResponse, Redirect, Response};
use job::Job;
use job::plan::form::Edit;
use job::record::Noted;
pub(super) use mend::{apply, mend};
use std::sync::Arc;

/// The fields of a form, in its order.
pub(super) struct Fields(Vec<(String, String)>);

impl Fields {
    /// What it says under a name.
    pub fn one(&self, name: &str) -> &str {
        let found = self.0.iter().find(|(k, _)| k == name);
        found.map_or("", |(_, v)| v)
    }

    /// What stands under a name, all of it.
    fn all(&self, name: &str) -> Vec<String> {
        let mine = self.0.iter().filter(|(k, _)| k == name);
        mine.map(|(_, v)| v.clone()).collect()
    }
}

/// A form that was sent to a plan.
pub(super) struct Posted {
    desk: Arc<Desk>,
    here: Here,
}

/// Where it was sent from, and what it says.
struct Here {
    kept: Arc<Kept>,
    asked: Asked,
    /// Whether the parts of the page alone are wanted.
    parts: bool,
    fields: Fields,
}

impl FromRequest<Arc<Desk>> for Posted {
    type Rejection = Response;

    async fn from_request(request: Request, desk: &Arc<Desk>) -> Result<Self, Response> {
        let (mut head, body) = request.into_parts();
        let name = Path::<String>::from_request_parts(&mut head, desk).await;
        let Path(name) = name.map_err(IntoResponse::into_response)?;
        let query = Pairs::from_request_parts(&mut head, desk).await;
        let Query(query) = query.map_err(IntoResponse::into_response)?;
        let parts = wants_parts(&head.headers);
        let kept = plan(desk, &name).map_err(IntoResponse::into_response)?;
        let fields = Form::from_request(Request::from_parts(head, body), desk).await;
        let Form(fields) = fields.map_err(IntoResponse::into_response)?;
        Ok(Self {
            desk: Arc::clone(desk),
            here: Here {
                kept,
                asked: Asked::read(&query),
                parts,
                fields: Fields(fields),
            },
        })
    }
}

impl Posted {
    /// Does what was asked for, away from the threads that serve.
    async fn done(self, f: impl FnOnce(&Here) -> Response + Send + 'static) -> Answer {
        let Self { desk, here } = self;
        away(&desk, move || f(&here)).await
    }
}

impl Posted {
    /// The same with the job at its best.
    pub async fn with_best(
        self,
        f: impl FnOnce(&Job, &Arc<Kept>, &Fields) -> Response + Send + 'static,
    ) -> Answer {
        self.done(move |here| match here.kept.best() {
            Ok(job) => f(&job, &here.kept, &here.fields),
            Err(why) => unread(&why),
        })
        .await
    }
}

impl Here {
    /// The page after a change; the address says what is to be seen of it.
    fn after(&self, asked: &Asked) -> Response {
        match (self.parts, self.kept.seen()) {
            (_, Err(why)) => unread(&why),
            (true, Ok(seen)) => {
                let answer = shown(&seen, asked, true);
                self.kept.heard();
                answer
            }
            (false, Ok(_)) => Redirect::to(&format!("./{}", asked.href())).into_response(),
        }
    }

    /// What came of a whole text.
    fn sent(&self, sent: Sent, seen: &str) -> Response {
        match sent {
            Sent::Kept => self.after(&self.asked),
            Sent::Changed { there, sent } => {
                (StatusCode::CONFLICT, Html(text::conflict(&there, &sent))).into_response()
            }
            Sent::Failed { why, sent } => {
                let page = text::failed(&why, &sent, seen);
                (StatusCode::INTERNAL_SERVER_ERROR, Html(page)).into_response()
            }
        }
    }

    /// One edit, and where one is after it.
    fn once(&self, wish: Edit, asked: &Asked) -> Response {
        let wanted = [Wanted {
            edit: wish,
            was: None,
        }];
        match edit(&self.kept, "", &wanted, "") {
            Ok(()) => self.after(asked),
            Err(answer) => answer.into_response(),
        }
    }
}

fn lacking() -> Response {
    let says = "That form lacks something that this page would have sent.";
    (StatusCode::UNPROCESSABLE_ENTITY, Html(view::refused(says))).into_response()
}

/// A whole text.
pub(super) async fn text(posted: Posted) -> Answer {
    posted
        .done(|here| {
            let seen = here.fields.one("seen");
            if seen.is_empty() || !here.fields.0.iter().any(|(k, _)| k == "text") {
                return lacking();
            }
            let change = Change {
                seen,
                text: here.fields.one("text"),
                words: "what was typed in the text",
                at: "text",
            };
            here.sent(here.kept.put(&change), seen)
        })
        .await
}

/// Answers typed into fields.
pub(super) async fn set(posted: Posted) -> Answer {
    posted
        .done(|here| {
            let seen = here.fields.one("seen");
            if seen.is_empty() {
                return lacking();
            }
            let wanted = wanted(&here.fields);
            let at = match wanted.as_slice() {
                [one] => one.was.as_ref().map_or("", |(path, ..)| path),
                _ => "",
            };
            let asked = follow(here.asked.clone(), &wanted);
            match edit(&here.kept, seen, &wanted, at) {
                Ok(()) => here.after(&asked),
                Err(answer) => answer.into_response(),
            }
        })
        .await
}

/// A new entry; what could not be read is not added.
pub(super) async fn add(posted: Posted) -> Answer {
    posted
        .done(|here| {
            let list = here.fields.one("list").to_owned();
            let mut answers: Vec<(String, Vec<String>)> = Vec::new();
            for (key, _) in &here.fields.0 {
                let known = answers.iter().any(|(k, _)| k == key);
                if !known && key != "list" && key != "seen" {
                    answers.push((key.clone(), here.fields.all(key)));
                }
            }
            let asked = here.asked.with("edit", list.strip_suffix(".load"));
            let to = list.clone();
            let wish = Edit::Add { list, answers };
            let text = here.kept.shelf().read().map(|(plan, _)| plan.text);
            let wrong = text.map(|text| newly_wrong(&text, &wish));
            match wrong.unwrap_or_default().as_slice() {
                [] => here.once(wish, &asked),
                wrong => {
                    let says = format!("It was not added. {}", wrong.join(" "));
                    here.kept.refuse(&to, &says);
                    here.after(&here.asked)
                }
            }
        })
        .await
}

/// A table that is not there yet.
pub(super) async fn make(posted: Posted) -> Answer {
    posted
        .done(|here| {
            let path = here.fields.one("path").to_owned();
            here.once(Edit::Make { path }, &here.asked)
        })
        .await
}

/// Takes something out.
pub(super) async fn remove(posted: Posted) -> Answer {
    posted
        .done(|here| {
            let path = here.fields.one("path").to_owned();
            let open = here.asked.get("edit") == Some(path.as_str());
            let asked = match open {
                true => here.asked.with("edit", None),
                false => here.asked.clone(),
            };
            here.once(Edit::Remove { path }, &asked)
        })
        .await
}

/// Takes the last change back.
pub(super) async fn undo(posted: Posted) -> Answer {
    posted.done(|here| turn(here, Kept::undo)).await
}

/// Brings back what was last taken back.
pub(super) async fn redo(posted: Posted) -> Answer {
    posted.done(|here| turn(here, Kept::redo)).await
}

fn turn(here: &Here, turn: fn(&Arc<Kept>, &str) -> Sent) -> Response {
    let seen = here.fields.one("seen");
    here.sent(turn(&here.kept, seen), seen)
}

/// A tick beside a step.
pub(super) async fn tick(posted: Posted) -> Answer {
    posted
        .done(|here| {
            let what = here.fields.one("what");
            if !here.kept.best().is_ok_and(|job| steps::is_step(&job, what)) {
                let says = "There is no such step: the plan was changed since this page was shown.";
                return (StatusCode::NOT_FOUND, Html(view::refused(says))).into_response();
            }
            let noted = Noted::Tick {
                what: what.to_owned(),
                done: here.fields.one("done") == "yes",
            };
            match here.kept.shelf().note(noted, "") {
                Ok(()) => {
                    let next = here.fields.one("next").parse::<usize>();
                    let to = next.map_or_else(|_| "steps".to_owned(), |n| format!("step?n={n}"));
                    Redirect::to(&to).into_response()
                }
                Err(why) => {
                    let page = view::refused(&why);
                    (StatusCode::INTERNAL_SERVER_ERROR, Html(page)).into_response()
                }
            }
        })
        .await
}
