//! A new entry: the few questions that it can't do without, and what is written for their answers.

use super::how::{How, turn};
use super::value;
use crate::ask::{Ask, Asked, LOAD, Stands, table};
use crate::{EditError, Editor, Written};

/// What is asked of a new load.
pub const NEW_LOAD: [&str; 4] = ["kind", "rated", "count", "place"];

/// The questions that a new entry of a table can't do without.
pub fn new_asks(key: &str) -> Vec<&'static Ask> {
    let asks = table(key).map_or(&[][..], |t| t.asks);
    let also = |a: &Ask| {
        matches!(
            (key, a.key),
            ("stretch", "guessed") | ("wire", "size") | ("day", "what" | "on")
        )
    };
    asks.iter()
        .filter(|a| a.asked == Asked::Always || also(a))
        .collect()
}

/// What turns.
const MOTORS: [&str; 8] = [
    "fan",
    "pump",
    "compressor",
    "winch",
    "motor",
    "blower",
    "wiper",
    "actuator",
];

/// Kinds of load as a form offers them: "LED lamp" is `lamp = "LED"`.
pub(super) fn kind(word: &str) -> (&'static str, String) {
    let lower = word.trim().to_lowercase();
    let named = |without: &str| {
        let rest = lower.replace(without, "");
        match rest.trim() {
            "" => without.to_owned(),
            rest => rest.to_owned(),
        }
    };
    match lower.as_str() {
        l if l.contains("led") => ("lamp", "LED".to_owned()),
        l if l.contains("halogen") => ("lamp", "halogen".to_owned()),
        l if l.contains("lamp") || l.contains("tungsten") || l.contains("bulb") => {
            ("lamp", "tungsten".to_owned())
        }
        l if l.contains("heater") => ("heater", named("heater")),
        l if l.contains("socket") => ("socket", named("socket")),
        l if MOTORS.iter().any(|m| l.contains(m)) => ("motor", lower),
        _ => ("electronics", word.trim().to_owned()),
    }
}

fn said<'a>(answers: &'a [(String, Vec<String>)], key: &str) -> &'a [String] {
    let found = answers.iter().find(|(k, _)| k == key);
    found.map_or(&[], |(_, typed)| typed)
}

fn line(
    out: &mut String,
    asks: &[Ask],
    answers: &[(String, Vec<String>)],
    key: &str,
    within: &str,
) {
    let asked = asks.iter().find(|a| a.key == key);
    let value = asked.and_then(|a| value::toml(a, said(answers, &format!("{within}{key}"))));
    if let Some(value) = value {
        *out += &format!("{key} = {value}\n");
    }
}

/// A load in one line.
fn load(answers: &[(String, Vec<String>)], within: &str) -> String {
    let word = said(answers, &format!("{within}kind"));
    let (key, word) = kind(word.first().map_or("", String::as_str));
    let mut lines = String::new();
    for key in ["rated", "place"] {
        line(&mut lines, LOAD, answers, key, within);
    }
    let count = said(answers, &format!("{within}count"))
        .first()
        .map(|c| c.trim());
    if count.is_some_and(|c| c != "1") {
        line(&mut lines, LOAD, answers, "count", within);
    }
    let rest: Vec<&str> = lines.lines().collect();
    let mut each = vec![format!("{key} = {}", value::text(&word))];
    each.extend(rest.into_iter().map(str::to_owned));
    each.join(", ")
}

/// Adds an entry.
pub(super) fn add(
    editor: &mut Editor,
    written: &Written,
    list: &str,
    answers: &[(String, Vec<String>)],
) -> Result<(), EditError> {
    let no_list = || EditError::NoSuchPlace(format!("list “{list}”"));
    if list.ends_with(".load") && list.starts_with("circuit[") {
        return editor.add(list, &load(answers, "").replace(", ", "\n"));
    }
    let asked = table(list).ok_or_else(no_list)?;
    let name = said(answers, "name")
        .first()
        .map(|n| n.trim())
        .unwrap_or_default();
    let mut text = String::new();
    match asked.stands {
        Stands::Once => return Err(no_list()),
        Stands::Named => {
            if name.is_empty() {
                return Err(EditError::NotAValue("a name that is empty".to_owned()));
            }
            if written
                .top()
                .named(list)
                .iter()
                .any(|e| e.name == Some(name))
            {
                return Err(EditError::Taken(name.to_owned()));
            }
            for ask in new_asks(list) {
                line(&mut text, asked.asks, answers, ask.key, "");
            }
            let inner: Vec<&str> = text.lines().collect();
            editor.put(list, name, &format!("{{ {} }}", inner.join(", ")))?;
            return joined(editor, name, answers);
        }
        Stands::Listed => {}
    }
    let taken = |e: &crate::Entry| !name.is_empty() && e.name == Some(name);
    if written.top().entries("", list).iter().any(taken) {
        return Err(EditError::Taken(name.to_owned()));
    }
    if list != "circuit" {
        for ask in new_asks(list) {
            line(&mut text, asked.asks, answers, ask.key, "");
        }
        return editor.add(list, &text);
    }
    circuit(editor, answers, asked.asks, name)
}

/// A new circuit, switched as it is wanted.
fn circuit(
    editor: &mut Editor,
    answers: &[(String, Vec<String>)],
    asks: &[Ask],
    name: &str,
) -> Result<(), EditError> {
    let mut text = String::new();
    line(&mut text, asks, answers, "name", "");
    text += &format!("load = {{ {} }}\n", load(answers, "load."));
    for key in ["box", "feed"] {
        line(&mut text, asks, answers, key, "");
    }
    let how = said(answers, "how").first().map_or("", String::as_str);
    let how = How::WORDS
        .iter()
        .find(|(word, ..)| *word == how)
        .map(|(.., how)| *how);
    line(&mut text, asks, answers, "earth", "");
    editor.add("circuit", &text)?;
    let circuit = crate::edit::entry("circuit", name);
    let now = Written::read(&editor.to_string());
    let how = how.unwrap_or(How::Switch);
    turn(editor, &now, &circuit, how)?;
    let switch = said(answers, "switch.place")
        .first()
        .filter(|p| !p.trim().is_empty());
    match switch {
        Some(place) if matches!(how, How::Relay | How::Switch) => {
            editor.set(&format!("{circuit}.switch.place"), &value::text(place))
        }
        _ => Ok(()),
    }
}

/// A new place is joined to another, if the form says to which.
fn joined(
    editor: &mut Editor,
    name: &str,
    answers: &[(String, Vec<String>)],
) -> Result<(), EditError> {
    let from = said(answers, "from")
        .first()
        .filter(|f| !f.trim().is_empty());
    let Some(from) = from else { return Ok(()) };
    let between = ("between".to_owned(), vec![from.clone(), name.to_owned()]);
    let mut all = vec![between];
    all.extend(
        answers
            .iter()
            .filter(|(k, _)| k == "length" || k == "guessed")
            .cloned(),
    );
    let mut text = String::new();
    let asks = table("stretch").map_or(&[][..], |t| t.asks);
    for key in ["between", "length", "guessed"] {
        line(&mut text, asks, &all, key, "");
    }
    editor.add("stretch", &text)
}
