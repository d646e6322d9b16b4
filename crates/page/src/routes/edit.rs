//! What changes a plan. A change is made to the text that is there; what somebody else changed meanwhile at another place stays,
//! and at the same place it is shown, and nothing is lost.

use super::read::{Pairs, shown, unread, wants_parts};
use super::{Answer, Refusal, away, plan};
use crate::asked::Asked;
use crate::desk::Desk;
use crate::kept::{Change, Kept, Sent, revision};
use crate::{bench, steps, text, view};
use axum::extract::{Form, Path, Query, State};
use axum::http::{HeaderMap, StatusCode};
use axum::response::{Html, IntoResponse, Redirect, Response};
use job::plan::form::{Edit, How, edited, said};
use job::plan::{Written, entry};
use std::sync::Arc;

type Fields = Form<Vec<(String, String)>>;

/// What a form says under a name.
fn one<'a>(fields: &'a [(String, String)], name: &str) -> &'a str {
    let found = fields.iter().find(|(k, _)| k == name);
    found.map_or("", |(_, v)| v)
}

/// What stands under a name, all of it.
fn all(fields: &[(String, String)], name: &str) -> Vec<String> {
    let mine = fields.iter().filter(|(k, _)| k == name);
    mine.map(|(_, v)| v.clone()).collect()
}

/// The page after a change; the address says what is to be seen of it.
fn after(kept: &Arc<Kept>, asked: &Asked, parts: bool) -> Response {
    match (parts, kept.seen()) {
        (_, Err(why)) => unread(&why),
        (true, Ok(seen)) => shown(&seen, asked, true),
        (false, Ok(_)) => Redirect::to(&format!("./{}", asked.href())).into_response(),
    }
}

/// What came of a whole text.
fn sent(kept: &Arc<Kept>, sent: Sent, seen: &str, asked: &Asked, parts: bool) -> Response {
    match sent {
        Sent::Kept => after(kept, asked, parts),
        Sent::Changed { there, sent } => {
            (StatusCode::CONFLICT, Html(text::conflict(&there, &sent))).into_response()
        }
        Sent::Failed { why, sent } => {
            let page = text::failed(&why, &sent, seen);
            (StatusCode::INTERNAL_SERVER_ERROR, Html(page)).into_response()
        }
    }
}

pub(super) async fn text(
    State(desk): State<Arc<Desk>>,
    Path(name): Path<String>,
    Query(query): Pairs,
    headers: HeaderMap,
    Form(fields): Fields,
) -> Answer {
    let kept = plan(&desk, &name)?;
    let asked = Asked::read(&query);
    let parts = wants_parts(&headers);
    if !fields.iter().any(|(k, _)| k == "text") || one(&fields, "seen").is_empty() {
        return Err(lacking().into());
    }
    away(&desk, move || {
        let seen = one(&fields, "seen");
        let change = Change {
            seen,
            text: one(&fields, "text"),
            words: "what was typed in the text",
            at: "text",
        };
        sent(&kept, kept.put(&change), seen, &asked, parts)
    })
    .await
}

fn lacking() -> Response {
    let says = "That form lacks something that this page would have sent.";
    (StatusCode::UNPROCESSABLE_ENTITY, Html(view::refused(says))).into_response()
}

/// An edit, with what whoever asked for it saw there.
struct Wanted {
    edit: Edit,
    /// The path of what was seen, what it was, and what is wanted.
    was: Option<(String, String, String)>,
}

/// Makes edits on the text that is there.
fn edit(kept: &Arc<Kept>, seen: &str, wanted: &[Wanted], at: &str) -> Result<(), Refusal> {
    // Somebody may write between reading and writing, seldom twice.
    for _ in 0..5 {
        let (now, _) = kept
            .shelf()
            .read()
            .map_err(|why| Refusal::from(unread(&why)))?;
        let here = revision(&now.text);
        let mut text = now.text.clone();
        for w in wanted {
            if here != seen
                && let Some((path, was, mine)) = &w.was
            {
                let there = said_at(&Written::read(&text), path);
                if there != *was && there != *mine {
                    let clash = bench::Clash {
                        path,
                        there: &there,
                        mine,
                    };
                    return Err(clashed(kept, &clash).into());
                }
            }
            match edited(&text, &w.edit) {
                Ok(next) => text = next,
                Err(e) => {
                    kept.say(&format!("That could not be done: {e}."));
                    return Ok(());
                }
            }
        }
        let words: Vec<String> = wanted.iter().map(|w| w.edit.words()).collect();
        let change = Change {
            seen: &here,
            text: &text,
            words: &words.join("; "),
            at,
        };
        match kept.put(&change) {
            Sent::Kept => return Ok(()),
            Sent::Changed { .. } => {}
            Sent::Failed { why, sent } => {
                let page = text::failed(&why, &sent, &here);
                return Err((StatusCode::INTERNAL_SERVER_ERROR, Html(page))
                    .into_response()
                    .into());
            }
        }
    }
    kept.say("Somebody else changes this plan all the time: try again.");
    Ok(())
}

/// What a form shows at a path.
fn said_at(written: &Written, path: &str) -> String {
    match path.strip_prefix("how.") {
        Some(circuit) => {
            let circuits = written.top().entries("", "circuit");
            let mine = circuits.iter().find(|c| c.path == circuit);
            mine.map_or(String::new(), |c| How::of(c.node).word().to_owned())
        }
        None => said(written, path),
    }
}

fn clashed(kept: &Arc<Kept>, clash: &bench::Clash) -> Response {
    match kept.seen() {
        Ok(seen) => (StatusCode::CONFLICT, Html(bench::clash(&seen, clash))).into_response(),
        Err(why) => unread(&why),
    }
}

/// What a form of fields asks for: each that differs from what was seen there.
fn wanted(fields: &[(String, String)]) -> Vec<Wanted> {
    let seen_of = fields
        .iter()
        .filter_map(|(k, was)| Some((k.strip_prefix("was.")?, was)));
    let mut found = Vec::new();
    for (path, was) in seen_of {
        let typed = all(fields, path);
        let mine = typed.join("\n");
        let was = match was.as_str() {
            "true" => "yes",
            "false" if mine == "none" => "none",
            "false" => "no",
            was => was,
        };
        if mine.replace("\r\n", "\n") == was.replace("\r\n", "\n") {
            continue;
        }
        let edit = match path.strip_prefix("how.") {
            Some(circuit) => {
                let how = How::WORDS.iter().find(|(word, ..)| *word == mine);
                let Some((.., how)) = how else { continue };
                Edit::How {
                    circuit: circuit.to_owned(),
                    how: *how,
                }
            }
            None => Edit::Set {
                path: path.to_owned(),
                typed,
            },
        };
        let raw = one(fields, &format!("was.{path}")).to_owned();
        found.push(Wanted {
            edit,
            was: Some((path.to_owned(), raw, mine)),
        });
    }
    // Names last: what is renamed is found by its old name until then.
    found.sort_by_key(|w| matches!(&w.edit, Edit::Set { path, .. } if is_name(path).is_some()));
    found
}

/// The entry whose name a path is: its list.
fn is_name(path: &str) -> Option<&str> {
    let (list, rest) = path.split_once('[')?;
    let ends = rest.ends_with(']') && !rest.contains("].");
    match ends || rest.ends_with("].name") && rest.matches("].").count() == 1 {
        true => Some(list),
        false => None,
    }
}

/// Where the form is that was open, if what it shows has another name now.
fn follow(asked: Asked, wanted: &[Wanted]) -> Asked {
    let renamed = wanted.iter().find_map(|w| match &w.edit {
        Edit::Set { path, typed } => Some((is_name(path)?, path, typed.first()?)),
        _ => None,
    });
    match renamed {
        Some((list, path, new)) if asked.get("edit") == Some(path.trim_end_matches(".name")) => {
            asked.with("edit", Some(&entry(list, new.trim())))
        }
        _ => asked,
    }
}

/// Answers typed into fields.
pub(super) async fn set(
    State(desk): State<Arc<Desk>>,
    Path(name): Path<String>,
    Query(query): Pairs,
    headers: HeaderMap,
    Form(fields): Fields,
) -> Answer {
    let kept = plan(&desk, &name)?;
    let parts = wants_parts(&headers);
    if one(&fields, "seen").is_empty() {
        return Err(lacking().into());
    }
    away(&desk, move || {
        let wanted = wanted(&fields);
        let at = match wanted.as_slice() {
            [one] => one.was.as_ref().map_or("", |(path, ..)| path),
            _ => "",
        };
        let asked = follow(Asked::read(&query), &wanted);
        match edit(&kept, one(&fields, "seen"), &wanted, at) {
            Ok(()) => after(&kept, &asked, parts),
            Err(answer) => answer.into_response(),
        }
    })
    .await
}

/// One edit, and where one is after it.
async fn once(
    desk: &Arc<Desk>,
    name: &str,
    headers: &HeaderMap,
    (wish, asked): (Edit, Asked),
) -> Answer {
    let kept = plan(desk, name)?;
    let parts = wants_parts(headers);
    away(desk, move || {
        let wanted = [Wanted {
            edit: wish,
            was: None,
        }];
        match edit(&kept, "", &wanted, "") {
            Ok(()) => after(&kept, &asked, parts),
            Err(answer) => answer.into_response(),
        }
    })
    .await
}

pub(super) async fn add(
    State(desk): State<Arc<Desk>>,
    Path(name): Path<String>,
    Query(query): Pairs,
    headers: HeaderMap,
    Form(fields): Fields,
) -> Answer {
    let list = one(&fields, "list").to_owned();
    let mut answers: Vec<(String, Vec<String>)> = Vec::new();
    for (key, _) in &fields {
        let known = answers.iter().any(|(k, _)| k == key);
        if !known && key != "list" && key != "seen" {
            answers.push((key.clone(), all(&fields, key)));
        }
    }
    let wish = Edit::Add {
        list: list.clone(),
        answers,
    };
    let kept = plan(&desk, &name)?;
    let parts = wants_parts(&headers);
    let here = Asked::read(&query);
    let added = here.with("edit", list.strip_suffix(".load"));
    away(&desk, move || {
        let text = kept.shelf().read().map(|(plan, _)| plan.text);
        let wrong = text
            .map(|text| newly_wrong(&text, &wish))
            .unwrap_or_default();
        if !wrong.is_empty() {
            kept.say(&format!("It was not added. {}", wrong.join(" ")));
            return after(&kept, &here, parts);
        }
        let wanted = [Wanted {
            edit: wish,
            was: None,
        }];
        match edit(&kept, "", &wanted, "") {
            Ok(()) => after(&kept, &added, parts),
            Err(answer) => answer.into_response(),
        }
    })
    .await
}

/// What would be wrong with a plan after an edit that is not wrong now, in sentences.
fn newly_wrong(text: &str, wish: &Edit) -> Vec<String> {
    let Ok(after) = edited(text, wish) else {
        return Vec::new();
    };
    let (_, known) = job::Plan::read(text);
    let (_, errors) = job::Plan::read(&after);
    let is_new = |e: &&job::Finding| !known.iter().any(|k| k.id == e.id && k.says == e.says);
    let told = errors.iter().filter(is_new);
    told.map(|e| format!("{}: {}.", e.says, e.mend)).collect()
}

pub(super) async fn make(
    State(desk): State<Arc<Desk>>,
    Path(name): Path<String>,
    Query(query): Pairs,
    headers: HeaderMap,
    Form(fields): Fields,
) -> Answer {
    let path = one(&fields, "path").to_owned();
    once(
        &desk,
        &name,
        &headers,
        (Edit::Make { path }, Asked::read(&query)),
    )
    .await
}

pub(super) async fn remove(
    State(desk): State<Arc<Desk>>,
    Path(name): Path<String>,
    Query(query): Pairs,
    headers: HeaderMap,
    Form(fields): Fields,
) -> Answer {
    let path = one(&fields, "path").to_owned();
    let mut asked = Asked::read(&query);
    if asked.get("edit") == Some(path.as_str()) {
        asked = asked.with("edit", None);
    }
    once(&desk, &name, &headers, (Edit::Remove { path }, asked)).await
}

pub(super) async fn undo(
    State(desk): State<Arc<Desk>>,
    Path(name): Path<String>,
    Query(query): Pairs,
    headers: HeaderMap,
    Form(fields): Fields,
) -> Answer {
    turn(&desk, &name, (query, headers), fields, Kept::undo).await
}

pub(super) async fn redo(
    State(desk): State<Arc<Desk>>,
    Path(name): Path<String>,
    Query(query): Pairs,
    headers: HeaderMap,
    Form(fields): Fields,
) -> Answer {
    turn(&desk, &name, (query, headers), fields, Kept::redo).await
}

async fn turn(
    desk: &Arc<Desk>,
    name: &str,
    (query, headers): (std::collections::BTreeMap<String, String>, HeaderMap),
    fields: Vec<(String, String)>,
    turn: fn(&Arc<Kept>, &str) -> Sent,
) -> Answer {
    let kept = plan(desk, name)?;
    let asked = Asked::read(&query);
    let parts = wants_parts(&headers);
    away(desk, move || {
        let seen = one(&fields, "seen");
        sent(&kept, turn(&kept, seen), seen, &asked, parts)
    })
    .await
}

/// The mend of a finding, tried and made.
pub(super) async fn mend(
    State(desk): State<Arc<Desk>>,
    Path(name): Path<String>,
    Query(query): Pairs,
    headers: HeaderMap,
    Form(fields): Fields,
) -> Answer {
    let kept = plan(&desk, &name)?;
    let asked = Asked::read(&query);
    let parts = wants_parts(&headers);
    away(&desk, move || {
        let Ok(seen) = kept.seen() else {
            return after(&kept, &asked, parts);
        };
        let findings = seen.job.answers().map_or(&[][..], |a| &a.findings);
        let at = one(&fields, "finding").parse::<usize>().ok();
        let found = at.and_then(|i| findings.get(i));
        let Some(finding) = found.filter(|f| f.id == one(&fields, "what")) else {
            kept.say("That finding is no longer there.");
            return after(&kept, &asked, parts);
        };
        let Some(done) = seen.job.remedied(finding) else {
            kept.say(&format!(
                "Nothing that is known mends this by itself, and nothing was changed. {}.",
                finding.mend
            ));
            return after(&kept, &asked, parts);
        };
        let change = Change {
            seen: &seen.revision,
            text: &done.text,
            words: &done.says,
            at: "",
        };
        let came = kept.put(&change);
        if came == Sent::Kept {
            let news = match done.adds.as_slice() {
                [] => "nothing else came of it".to_owned(),
                adds => format!("but then: {}", adds.join("; ")),
            };
            kept.say(&format!(
                "Done: {}. “{}” is gone; {news}.",
                done.says, finding.says
            ));
        }
        sent(&kept, came, &seen.revision, &asked, parts)
    })
    .await
}

/// A mend that was tried elsewhere: its changes as they stand in a plan.
pub(super) async fn apply(
    State(desk): State<Arc<Desk>>,
    Path(name): Path<String>,
    Form(fields): Fields,
) -> Answer {
    let kept = plan(&desk, &name)?;
    away(&desk, move || {
        let Ok(seen) = kept.seen() else {
            return Redirect::to("./").into_response();
        };
        let paths = fields.iter().filter(|(k, _)| k == "path").map(|(_, v)| v);
        let values = fields.iter().filter(|(k, _)| k == "value").map(|(_, v)| v);
        let changes: Vec<job::Change> = paths
            .zip(values)
            .map(|(path, value)| job::Change {
                path: path.clone(),
                value: (!value.is_empty()).then(|| value.clone()),
            })
            .collect();
        let says = one(&fields, "says");
        match seen.job.text_with(&changes) {
            Ok(text) => {
                let change = Change {
                    seen: &seen.revision,
                    text: &text,
                    words: says,
                    at: "",
                };
                let came = kept.put(&change);
                if came == Sent::Kept {
                    kept.say(&format!("Done: {says}."));
                }
                sent(&kept, came, &seen.revision, &Asked::default(), false)
            }
            Err(e) => {
                kept.say(&format!("That could not be done: {e}."));
                Redirect::to("./").into_response()
            }
        }
    })
    .await
}

/// A tick beside a step.
pub(super) async fn tick(
    State(desk): State<Arc<Desk>>,
    Path(name): Path<String>,
    Form(fields): Fields,
) -> Answer {
    let kept = plan(&desk, &name)?;
    away(&desk, move || {
        let (what, done) = (one(&fields, "what"), one(&fields, "done") == "yes");
        if !kept.best().is_ok_and(|job| steps::is_step(&job, what)) {
            let says = "There is no such step: the plan was changed since this page was shown.";
            return (StatusCode::NOT_FOUND, Html(view::refused(says))).into_response();
        }
        match kept.shelf().tick(what, done) {
            Ok(()) => {
                let next = one(&fields, "next").parse::<usize>();
                let to = next.map_or_else(|_| "steps".to_owned(), |n| format!("step?n={n}"));
                Redirect::to(&to).into_response()
            }
            Err(why) => {
                (StatusCode::INTERNAL_SERVER_ERROR, Html(view::refused(&why))).into_response()
            }
        }
    })
    .await
}
