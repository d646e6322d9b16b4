//! A name that changes, followed to where it is used.

use super::{value, walk};
use crate::ask::{Of, Takes};
use crate::edit::names_of;
use crate::{EditError, Editor, Written};

/// What the name at a path is a name of, if it is one that others use.
pub(super) fn given_by(path: &str) -> Option<Of> {
    let steps = names_of(path);
    let [(list, _), (key, _)] = steps.as_slice() else {
        return None;
    };
    match (list.as_str(), key.as_str()) {
        ("feed", "name") => Some(Of::Feed),
        ("box", "name") => Some(Of::Box),
        ("earth", "name") => Some(Of::Earth),
        ("signal", "name") => Some(Of::Signal),
        ("circuit", "name") => Some(Of::Circuit),
        _ => None,
    }
}

/// Whether a question is answered by such names. A place serves as an earth too.
fn uses(takes: Takes, of: Of) -> bool {
    match takes {
        Takes::Named(used) | Takes::AllNamed(used) => {
            used == of || (of == Of::Place && used == Of::Earth)
        }
        _ => false,
    }
}

/// Whether an earth has the name itself: then it is what is meant, not the place.
fn is_an_earth(written: &Written, name: &str) -> bool {
    let earths = written.top().entries("", "earth");
    earths.iter().any(|e| e.name == Some(name))
}

/// Changes a name wherever it is used.
pub(super) fn follow(
    editor: &mut Editor,
    written: &Written,
    of: Of,
    old: &str,
    new: &str,
) -> Result<(), EditError> {
    let mut edits: Vec<(String, String)> = Vec::new();
    let shadowed = of == Of::Place && is_an_earth(written, old);
    walk::each(written, &mut |path, ask, node| {
        if !uses(ask.takes, of) || (shadowed && matches!(ask.takes, Takes::Named(Of::Earth))) {
            return;
        }
        let texts = node.texts();
        if !texts.contains(&old) {
            return;
        }
        let turned: Vec<String> = texts
            .iter()
            .map(|t| if *t == old { new } else { t }.to_owned())
            .collect();
        edits.extend(value::toml(ask, &turned).map(|v| (path.to_owned(), v)));
    });
    // What is renamed itself may be on the way to where its name is used.
    let own = |path: &str| {
        let steps = names_of(path);
        let mut out = String::new();
        for (i, (key, entry)) in steps.iter().enumerate() {
            let renamed = i == 0 && steps.len() > 1 && entry == old && list_of(of) == key;
            let entry = if renamed { new } else { entry.as_str() };
            if i > 0 {
                out.push('.');
            }
            match entry {
                "" => out += key,
                entry => out += &crate::edit::entry(key, entry),
            }
        }
        out
    };
    for (path, value) in edits {
        editor.set(&own(&path), &value)?;
    }
    Ok(())
}

fn list_of(of: Of) -> &'static str {
    match of {
        Of::Place => "place",
        Of::Feed => "feed",
        Of::Box => "box",
        Of::Earth => "earth",
        Of::Signal => "signal",
        Of::Circuit => "circuit",
    }
}

/// Gives an entry that stands by its name another.
pub(super) fn rename_key(
    editor: &mut Editor,
    written: &Written,
    table: &str,
    old: &str,
    new: &str,
) -> Result<(), EditError> {
    if old == new {
        return Ok(());
    }
    editor.rename(table, old, new)?;
    match table {
        "place" => follow(editor, written, Of::Place, old, new),
        _ => Ok(()),
    }
}
