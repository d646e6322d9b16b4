//! Answers put into the text that is there, and what was seen where they go.

use super::Fields;
use crate::asked::Asked;
use crate::bench;
use crate::kept::{Change, Kept, Sent, revision};
use crate::routes::Refusal;
use crate::routes::read::unread;
use crate::text;
use axum::http::StatusCode;
use axum::response::{Html, IntoResponse, Response};
use job::plan::form::{Edit, How, edited, said};
use job::plan::{Written, entry};
use std::sync::Arc;

/// An edit, with what whoever asked for it saw there.
pub(super) struct Wanted {
    pub edit: Edit,
    /// The path of what was seen, what it was, and what is wanted.
    pub was: Option<(String, String, String)>,
}

/// Makes edits on the text that is there.
pub(super) fn edit(
    kept: &Arc<Kept>,
    seen: &str,
    wanted: &[Wanted],
    at: &str,
) -> Result<(), Refusal> {
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
pub(super) fn wanted(fields: &Fields) -> Vec<Wanted> {
    let seen_of = fields
        .0
        .iter()
        .filter_map(|(k, was)| Some((k.strip_prefix("was.")?, was)));
    let mut found = Vec::new();
    for (path, was) in seen_of {
        let typed = fields.all(path);
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
        let raw = fields.one(&format!("was.{path}")).to_owned();
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
pub(super) fn follow(asked: Asked, wanted: &[Wanted]) -> Asked {
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

/// What would be wrong with a plan after an edit that is not wrong now, in sentences.
pub(super) fn newly_wrong(text: &str, wish: &Edit) -> Vec<String> {
    let Ok(after) = edited(text, wish) else {
        return Vec::new();
    };
    let (_, known) = job::Plan::read(text);
    let (_, errors) = job::Plan::read(&after);
    let is_new = |e: &&job::Finding| !known.iter().any(|k| k.id == e.id && k.says == e.says);
    let told = errors.iter().filter(is_new);
    told.map(|e| format!("{}: {}.", e.says, e.mend)).collect()
}
