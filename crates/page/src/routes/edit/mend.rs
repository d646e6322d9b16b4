//! Mends of what is found, tried and made.

use super::{Here, Posted};
use crate::kept::{Change, Sent};
use crate::routes::Answer;
use axum::response::Response;

/// The mend of a finding: tried first, then made.
pub(in crate::routes) async fn mend(posted: Posted) -> Answer {
    posted.done(mended).await
}

fn mended(here: &Here) -> Response {
    let Ok(seen) = here.kept.seen() else {
        return here.after(&here.asked);
    };
    let findings = seen.job.answers().map_or(&[][..], |a| &a.findings);
    let at = here.fields.one("finding").parse::<usize>().ok();
    let found = at.and_then(|i| findings.get(i));
    let Some(finding) = found.filter(|f| f.id == here.fields.one("what")) else {
        here.kept.say("That finding is no longer there.");
        return here.after(&here.asked);
    };
    let Some(done) = seen.job.remedied(finding) else {
        here.kept.say(&format!(
            "Nothing that is known mends this by itself, and nothing was changed. {}.",
            finding.mend
        ));
        return here.after(&here.asked);
    };
    let news = match done.adds.as_slice() {
        [] => "nothing else came of it".to_owned(),
        adds => format!("but then: {}", adds.join("; ")),
    };
    let said = format!("Done: {}. “{}” is gone; {news}.", done.says, finding.says);
    put(here, (&seen.revision, &done.text, &done.says), &said)
}

/// Puts a mended text in place of the one that was seen, and says what came of it.
fn put(here: &Here, (seen, text, words): (&str, &str, &str), said: &str) -> Response {
    let change = Change {
        seen,
        text,
        words,
        at: "",
    };
    let came = here.kept.put(&change);
    if came == Sent::Kept {
        here.kept.say(said);
    }
    here.sent(came, seen)
}

/// A mend that was tried elsewhere: its changes as they stand in a plan.
pub(in crate::routes) async fn apply(posted: Posted) -> Answer {
    posted
        .done(|here| {
            let Ok(seen) = here.kept.seen() else {
                return here.after(&here.asked);
            };
            let (paths, values) = (here.fields.all("path"), here.fields.all("value"));
            let changes = paths.into_iter().zip(values);
            let changes: Vec<job::Change> = changes
                .map(|(path, value)| job::Change {
                    path,
                    value: (!value.is_empty()).then_some(value),
                })
                .collect();
            let says = here.fields.one("says");
            match seen.job.text_with(&changes) {
                Ok(text) => put(
                    here,
                    (&seen.revision, &text, says),
                    &format!("Done: {says}."),
                ),
                Err(e) => {
                    here.kept.say(&format!("That could not be done: {e}."));
                    here.after(&here.asked)
                }
            }
        })
        .await
}
