//! A plan that is open, on a shelf in memory.

use super::*;
use crate::shelf::{Refused, Stroke, Version};
use job::record::{Entry, Noted};

/// A shelf in memory.
#[derive(Default)]
struct Memory {
    text: Arc<Mutex<String>>,
    put_away: Mutex<Vec<String>>,
}

impl Shelf for Memory {
    fn read(&self) -> Texts {
        let name = "plan".to_owned();
        let text = held(&self.text).clone();
        Ok((Source { name, text }, Vec::new()))
    }

    fn write(
        &self,
        seen: &dyn Fn(&str) -> bool,
        text: &str,
        stroke: Stroke,
    ) -> Result<(), Refused> {
        let mut now = held(&self.text);
        if !seen(&now) {
            return Err(Refused::Changed(now.clone()));
        }
        if stroke == Stroke::Anew {
            held(&self.put_away).push(now.clone());
        }
        text.clone_into(&mut now);
        Ok(())
    }

    fn versions(&self) -> Vec<Version> {
        Vec::new()
    }

    fn version(&self, _: u32) -> Option<String> {
        None
    }

    fn record(&self) -> Vec<Entry> {
        Vec::new()
    }

    fn note(&self, _: Noted, _: &str) -> Result<(), String> {
        Ok(())
    }
}

fn kept(text: &str) -> (Arc<Kept>, Arc<Mutex<String>>) {
    let shelf = Memory::default();
    text.clone_into(&mut held(&shelf.text));
    let text = Arc::clone(&shelf.text);
    (Arc::new(Kept::new(Box::new(shelf))), text)
}

fn put(kept: &Arc<Kept>, text: &str, at: &str) -> Sent {
    let seen = kept.seen().unwrap().revision;
    kept.put(&Change {
        seen: &seen,
        text,
        words: text,
        at,
    })
}

#[test]
fn the_same_texts_are_read_once_and_changed_ones_anew() {
    let (kept, text) = kept("a = 1");
    let (one, two) = (kept.seen().unwrap(), kept.seen().unwrap());
    "b = 1".clone_into(&mut held(&text));
    let three = kept.seen().unwrap();
    assert!(Arc::ptr_eq(&one.job, &two.job) && !Arc::ptr_eq(&two.job, &three.job));
    // What an editor did can be taken back too.
    assert_eq!(three.undo.as_deref(), Some("what an editor did"));
    assert_eq!(kept.undo(&three.revision), Sent::Kept);
    assert_eq!(*held(&text), "a = 1");
}

#[test]
fn changes_are_taken_back_and_brought_back() {
    let (kept, text) = kept("0");
    let seen = kept.seen().unwrap();
    assert_eq!((seen.undo, seen.redo), (None, None));
    for n in ["1", "2", "3"] {
        assert_eq!(put(&kept, n, ""), Sent::Kept);
    }
    let turn = |back: bool| {
        let seen = kept.seen().unwrap().revision;
        let sent = if back {
            kept.undo(&seen)
        } else {
            kept.redo(&seen)
        };
        assert_eq!(sent, Sent::Kept);
        held(&text).clone()
    };
    assert_eq!([turn(true), turn(true), turn(false)], ["2", "1", "2"]);
    let seen = kept.seen().unwrap();
    assert_eq!(
        (seen.undo.as_deref(), seen.redo.as_deref()),
        (Some("2"), Some("3"))
    );
    // A change of another kind leaves nothing to bring back.
    put(&kept, "4", "");
    assert_eq!(kept.seen().unwrap().redo, None);
    assert_eq!(
        [turn(true), turn(true), turn(true), turn(true)],
        ["2", "1", "0", "0"]
    );
}

#[test]
fn letters_typed_one_after_the_other_are_one_change() {
    let (kept, text) = kept("");
    for typed in ["w", "wo", "wor"] {
        put(&kept, typed, "job.title");
    }
    // What changes nothing begins nothing.
    put(&kept, "wor", "job.vehicle");
    put(&kept, "x", "job.vehicle");
    let seen = kept.seen().unwrap().revision;
    kept.undo(&seen);
    assert_eq!(*held(&text), "wor");
    let seen = kept.seen().unwrap().revision;
    kept.undo(&seen);
    assert_eq!(*held(&text), "");
}

#[test]
fn whoever_has_not_seen_the_text_changes_nothing() {
    let (kept, text) = kept("1");
    let old = kept.seen().unwrap().revision;
    put(&kept, "2", "");
    let sent = kept.put(&Change {
        seen: &old,
        text: "3",
        words: "",
        at: "",
    });
    let changed = Sent::Changed {
        there: "2".into(),
        sent: "3".into(),
    };
    assert_eq!(sent, changed);
    assert_eq!(*held(&text), "2");
}
