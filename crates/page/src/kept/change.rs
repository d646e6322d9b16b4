//! A text put in place of another; taken back, and brought back.

use super::{Inner, Kept, held, revision};
use crate::shelf::{Refused, Shelf, Stroke};
use std::sync::Arc;
use std::time::{Duration, Instant};

/// What came of a text that was sent.
#[derive(Debug, PartialEq, Eq)]
pub(crate) enum Sent {
    /// It is the plan now.
    Kept,
    /// The plan has changed since it was seen: what is there, and what was sent.
    Changed { there: String, sent: String },
    /// It could not be written.
    Failed { why: String, sent: String },
}

/// A change that somebody asks for.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Change<'a> {
    /// Which text was seen.
    pub seen: &'a str,
    /// What is to be there instead.
    pub text: &'a str,
    /// What it is, in words.
    pub words: &'a str,
    /// Where it is typed: what comes soon after at the same spot goes on with it.
    pub at: &'a str,
}

/// A text with the words of the change that led away from it.
#[derive(Clone, Debug)]
struct Step {
    text: String,
    words: String,
}

/// What the plan was, and what it would be again.
#[derive(Default)]
pub(super) struct History {
    /// The newest last.
    past: Vec<Step>,
    future: Vec<Step>,
    /// Where letters were last typed, and when.
    typing: Option<Typing>,
    /// What this program itself has written last.
    own: Option<String>,
    /// Whether versions from before this program was started are spoken for.
    from_shelf: bool,
}

/// Letters typed one after the other at one spot.
struct Typing {
    at: String,
    since: Instant,
    last: Instant,
}

impl Typing {
    /// Whether what is typed there now goes on with it.
    fn goes_on(&self, at: &str) -> bool {
        !at.is_empty()
            && self.at == at
            && self.last.elapsed() < PAUSE
            && self.since.elapsed() < LONGEST
    }
}

/// Letters within this time go on with those before, up to so long in all.
const PAUSE: Duration = Duration::from_secs(4);
const LONGEST: Duration = Duration::from_secs(30);

/// So many changes can be taken back.
const STEPS: usize = 200;

impl History {
    /// A text that came by itself: an editor wrote it.
    pub(super) fn noticed(&mut self, before: &str, now: &str) {
        if self.own.as_deref() == Some(now) {
            return;
        }
        self.push(before, "what an editor did");
        self.future.clear();
        self.typing = None;
    }

    /// A change was made here.
    fn changed(&mut self, before: &str, change: &Change, goes_on: bool) {
        self.future.clear();
        let now = Instant::now();
        let since = self.typing.as_ref().filter(|_| goes_on);
        let since = since.map_or(now, |t| t.since);
        self.typing = Some(Typing {
            at: change.at.to_owned(),
            since,
            last: now,
        });
        match self.past.last_mut().filter(|_| goes_on) {
            Some(last) => change.words.clone_into(&mut last.words),
            None => self.push(before, change.words),
        }
    }

    fn push(&mut self, text: &str, words: &str) {
        self.past.push(Step {
            text: text.to_owned(),
            words: words.to_owned(),
        });
        if self.past.len() > STEPS {
            self.past.remove(0);
        }
    }

    /// What can be taken back, and brought back.
    pub(super) fn words(&mut self, shelf: &dyn Shelf) -> (Option<String>, Option<String>) {
        if !self.from_shelf {
            self.from_shelf = true;
            let newest = shelf.versions().first().map(|v| v.number);
            let text = newest.and_then(|n| shelf.version(n));
            if let Some(text) = text.filter(|_| self.past.is_empty()) {
                self.push(&text, "the last change before this start");
            }
        }
        let last = |of: &[Step]| of.last().map(|s| s.words.clone());
        (last(&self.past), last(&self.future))
    }
}

/// A text as a form sends it, with the line ends of the one that it replaces.
pub(super) fn as_there(sent: &str, there: &str) -> String {
    let plain = sent.replace("\r\n", "\n");
    match there.contains("\r\n") {
        true => plain.replace('\n', "\r\n"),
        false => plain,
    }
}

impl Kept {
    /// Puts a text in place of the one that was seen.
    pub fn put(self: &Arc<Self>, change: &Change) -> Sent {
        let mut inner = held(&self.inner);
        let there = self
            .shelf
            .read()
            .map(|(plan, _)| plan.text)
            .unwrap_or_default();
        let text = as_there(change.text, &there);
        let typing = inner.history.typing.as_ref();
        let goes_on = typing.is_some_and(|t| t.goes_on(change.at));
        inner.goes_on = goes_on;
        let stroke = if goes_on {
            Stroke::GoesOn
        } else {
            Stroke::Anew
        };
        match self.write(&mut inner, change.seen, &text, stroke) {
            Ok(before) => {
                if before != text {
                    inner.history.changed(&before, change, goes_on);
                }
                Sent::Kept
            }
            Err(Refused::Changed(there)) => Sent::Changed { there, sent: text },
            Err(Refused::Failed(why)) => Sent::Failed { why, sent: text },
        }
    }

    /// Writes; gives what was there.
    fn write(
        self: &Arc<Self>,
        inner: &mut Inner,
        seen: &str,
        text: &str,
        stroke: Stroke,
    ) -> Result<String, Refused> {
        let before = std::cell::RefCell::new(String::new());
        let was_seen = |now: &str| {
            now.clone_into(&mut before.borrow_mut());
            revision(now) == seen
        };
        // A text of its own is not taken for an editor's.
        let own = inner.history.own.replace(text.to_owned());
        if let Err(refused) = self.shelf.write(&was_seen, text, stroke) {
            inner.history.own = own;
            return Err(refused);
        }
        let _ = self.last(inner);
        Ok(before.into_inner())
    }

    /// Takes the last change back.
    pub fn undo(self: &Arc<Self>, seen: &str) -> Sent {
        self.turn(seen, |h| (&mut h.past, &mut h.future))
    }

    /// Brings back what was last taken back.
    pub fn redo(self: &Arc<Self>, seen: &str) -> Sent {
        self.turn(seen, |h| (&mut h.future, &mut h.past))
    }

    fn turn(
        self: &Arc<Self>,
        seen: &str,
        sides: impl Fn(&mut History) -> (&mut Vec<Step>, &mut Vec<Step>),
    ) -> Sent {
        let mut inner = held(&self.inner);
        inner.history.typing = None;
        inner.goes_on = false;
        let Some(step) = sides(&mut inner.history).0.last().cloned() else {
            return Sent::Kept;
        };
        match self.write(&mut inner, seen, &step.text, Stroke::Anew) {
            Ok(before) => {
                let (from, to) = sides(&mut inner.history);
                from.pop();
                to.push(Step {
                    text: before,
                    words: step.words,
                });
                Sent::Kept
            }
            Err(Refused::Changed(there)) => Sent::Changed {
                there,
                sent: step.text,
            },
            Err(Refused::Failed(why)) => Sent::Failed {
                why,
                sent: step.text,
            },
        }
    }
}

#[cfg(test)]
mod tests {
    use super::as_there;

    #[test]
    fn line_ends_stay_as_they_are() {
        assert_eq!(as_there("a\r\nb\r\n", "x\ny\n"), "a\nb\n");
        assert_eq!(as_there("a\r\nb\n", "x\r\ny\r\n"), "a\r\nb\r\n");
    }
}
