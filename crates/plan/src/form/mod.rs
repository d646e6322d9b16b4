//! What a form does to a plan's text: an answer typed into a field, an entry added or taken out, a circuit switched another
//! way. Each is an edit that keeps comments and order; names that change are followed to where they are used.
//!
//! | file | what |
//! |---|---|
//! | `value` | what was typed, as TOML |
//! | `walk` | every answer in a text, with its question |
//! | `names` | a name that changes |
//! | `how` | how a circuit is switched |
//! | `add` | a new entry |
//! | `start` | a plan to start from |

mod add;
mod how;
mod names;
mod start;
mod value;
mod walk;

pub use add::{NEW_LOAD, new_asks};
pub use how::How;
pub use start::{Start, start};
pub use walk::{ask_at, each, said};

use crate::ask::{self, Stands};
use crate::load::kind_keys;
use crate::{EditError, Editor, Node, Written};

/// One thing that a form asks for.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Edit {
    /// An answer: what was typed, or nothing. Several for a list.
    Set {
        /// Where: `circuit[rack lamps].drop`.
        path: String,
        /// What was typed.
        typed: Vec<String>,
    },
    /// A new entry of a list, with answers by their keys: `name`, `load.rated`.
    Add {
        /// The list: `circuit`, `circuit[rack lamps].load`.
        list: String,
        /// Its first answers.
        answers: Vec<(String, Vec<String>)>,
    },
    /// A table that is not there yet: `circuit[rack lamps].relay`.
    Make {
        /// Where.
        path: String,
    },
    /// Takes an entry, a table or an answer out.
    Remove {
        /// Which.
        path: String,
    },
    /// How a circuit is switched.
    How {
        /// The circuit's path.
        circuit: String,
        /// How.
        how: How,
    },
}

impl Edit {
    /// What it is, in a few words: "rack lamps, drop: 5 %".
    pub fn words(&self) -> String {
        let place = |path: &str| {
            let steps = crate::edit::names_of(path).into_iter();
            let each = steps.flat_map(|(key, entry)| match entry.as_str() {
                "" => vec![key],
                number if number.parse::<u32>().is_ok() => vec![format!("{key} {number}")],
                _ => vec![entry],
            });
            each.collect::<Vec<_>>().join(", ")
        };
        match self {
            Self::Set { path, typed } => match typed.join(", ") {
                typed if typed.trim().is_empty() => format!("{} as usual", place(path)),
                typed => format!("{}: {typed}", place(path)),
            },
            Self::Add { list, answers } => {
                let name = answers.iter().find(|(k, _)| k == "name");
                let name = name.and_then(|(_, n)| n.first()).map_or("", String::as_str);
                format!("a new {} {name}", place(list))
                    .trim_end()
                    .to_owned()
            }
            Self::Make { path } => format!("{} added", place(path)),
            Self::Remove { path } => format!("{} taken out", place(path)),
            Self::How { circuit, how } => format!("{}, turned on: {}", place(circuit), how.word()),
        }
    }
}

/// The text with an edit made.
///
/// # Errors
/// If the text is no TOML, or leads nowhere.
pub fn edited(text: &str, edit: &Edit) -> Result<String, EditError> {
    let written = Written::read(text);
    let mut editor = Editor::new(text)?;
    match edit {
        Edit::Set { path, typed } => set(&mut editor, &written, path, typed)?,
        Edit::Add { list, answers } => add::add(&mut editor, &written, list, answers)?,
        Edit::Make { path } => make(&mut editor, &written, path)?,
        Edit::Remove { path } => remove(&mut editor, &written, path)?,
        Edit::How { circuit, how } => how::turn(&mut editor, &written, circuit, *how)?,
    }
    Ok(editor.to_string())
}

fn set(
    editor: &mut Editor,
    written: &Written,
    path: &str,
    typed: &[String],
) -> Result<(), EditError> {
    if let Some((key, old)) = named_entry(path) {
        let new = typed.first().map_or("", String::as_str).trim();
        return match new.is_empty() {
            true => Err(EditError::NotAValue("a name that is empty".to_owned())),
            false => names::rename_key(editor, written, key, &old, new),
        };
    }
    let ask = ask_at(path).ok_or_else(|| EditError::NoSuchPlace(format!("“{path}”")))?;
    let was = walk::at(written, path).and_then(Node::typed);
    match value::toml(ask, typed) {
        Some(value) => editor.set(path, &value)?,
        // What was not said needs not be taken back.
        None if walk::at(written, path).is_none() => {}
        None => editor.remove(path)?,
    }
    only_this_kind(editor, written, path, typed)?;
    if let (Some(old), Some(new), Some(of)) = (was, typed.first(), names::given_by(path)) {
        names::follow(editor, written, of, &old, new)?;
    }
    Ok(())
}

/// A load is one thing: what it was before goes when it is called another.
fn only_this_kind(
    editor: &mut Editor,
    written: &Written,
    path: &str,
    typed: &[String],
) -> Result<(), EditError> {
    let Some((load, key)) = path.rsplit_once('.') else {
        return Ok(());
    };
    let said = typed.iter().any(|t| !t.trim().is_empty());
    if !said || !load.contains(".load[") || !kind_keys().any(|k| k == key) {
        return Ok(());
    }
    for other in kind_keys().filter(|k| *k != key) {
        let other = format!("{load}.{other}");
        if walk::at(written, &other).is_some() {
            editor.remove(&other)?;
        }
    }
    Ok(())
}

/// Takes something out. A place goes with the ways that end there.
fn remove(editor: &mut Editor, written: &Written, path: &str) -> Result<(), EditError> {
    if let Some(("place", name)) = named_entry(path) {
        let ways = written.top().entries("", "stretch");
        let ends = |n: &Node| {
            n.get("between")
                .is_some_and(|(b, _)| b.texts().contains(&name.as_str()))
        };
        // From the last to the first, so that the numbers stay right.
        for way in ways.iter().rev().filter(|w| ends(w.node)) {
            editor.remove(&way.path)?;
        }
    }
    editor.remove(path)
}

/// A path that is the name of an entry itself: `place[dash]`.
fn named_entry(path: &str) -> Option<(&'static str, String)> {
    ask::TABLES
        .iter()
        .filter(|t| t.stands == Stands::Named)
        .find_map(|t| {
            let rest = path.strip_prefix(t.key)?;
            let steps = crate::edit::names_of(path);
            (rest.starts_with('[') && steps.len() == 1).then(|| (t.key, steps[0].1.clone()))
        })
}

/// A table that is not there yet, with the places that it needs.
fn make(editor: &mut Editor, written: &Written, path: &str) -> Result<(), EditError> {
    let ask = ask_at(path).ok_or_else(|| EditError::NoSuchPlace(format!("“{path}”")))?;
    let (ask::Takes::Table(asks) | ask::Takes::Fuse(asks)) = ask.takes else {
        return Err(EditError::NoSuchPlace(format!("table “{path}”")));
    };
    if walk::at(written, path).is_none() {
        editor.set(path, "{}")?;
    }
    let needs_place = asks
        .iter()
        .any(|a| a.key == "place" && a.asked == ask::Asked::Always);
    if needs_place && walk::at(written, &format!("{path}.place")).is_none() {
        let place = how::likely_place(written, path);
        editor.set(&format!("{path}.place"), &value::text(&place))?;
    }
    Ok(())
}

#[cfg(test)]
mod tests;
