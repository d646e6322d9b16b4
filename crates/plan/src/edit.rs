//! Edits of a plan's text that keep comments and order: set this, add that, remove that.

use std::fmt;
use toml_edit::{ArrayOfTables, DocumentMut, InlineTable, Item, Table, TableLike, Value};

/// A plan's text, open for edits.
#[derive(Clone, Debug)]
pub struct Editor {
    document: DocumentMut,
}

/// Why an edit can't be made. The text is unchanged.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum EditError {
    /// The text is not TOML.
    NotToml(String),
    /// The value to set is not a TOML value.
    NotAValue(String),
    /// The path leads nowhere.
    NoSuchPlace(String),
}

impl fmt::Display for EditError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::NotToml(e) => write!(f, "the plan is not TOML: {e}"),
            Self::NotAValue(v) => write!(f, "“{v}” is not a value; texts go in quotes"),
            Self::NoSuchPlace(p) => write!(f, "the plan has no {p}"),
        }
    }
}

impl std::error::Error for EditError {}

/// One step of a path: a key, with the name of the entry if the key holds a list.
/// `circuit[rack lamps].drop` is the steps `circuit[rack lamps]` and `drop`.
#[derive(Clone, Debug, PartialEq, Eq)]
struct Step {
    key: String,
    entry: Option<String>,
}

fn steps(path: &str) -> Vec<Step> {
    let mut steps = Vec::new();
    let mut rest = path;
    while !rest.is_empty() {
        let end = rest.find(['.', '[']).unwrap_or(rest.len());
        let key = rest[..end].to_owned();
        rest = &rest[end..];
        let mut entry = None;
        if let Some(inside) = rest.strip_prefix('[') {
            let close = inside.find(']').unwrap_or(inside.len());
            entry = Some(inside[..close].to_owned());
            rest = inside.get(close + 1..).unwrap_or("");
        }
        rest = rest.strip_prefix('.').unwrap_or(rest);
        steps.push(Step { key, entry });
    }
    steps
}

impl Editor {
    /// Opens a plan's text.
    pub fn new(text: &str) -> Result<Self, EditError> {
        let document = text
            .parse::<DocumentMut>()
            .map_err(|e| EditError::NotToml(e.message().to_owned()))?;
        Ok(Self { document })
    }

    /// Sets a value: `set("circuit[rack lamps].drop", "\"4 %\"")`. The value is TOML. An entry
    /// of `[place]` or `[wire]` is made when it is not there yet.
    pub fn set(&mut self, path: &str, value: &str) -> Result<(), EditError> {
        let value: Value = value
            .parse()
            .map_err(|_| EditError::NotAValue(value.to_owned()))?;
        let (parent, last) = self.descend(path, true)?;
        if let Some(old) = parent.get_mut(&last.key).and_then(Item::as_value_mut) {
            // Keep the spaces and the comment that stand around the old value.
            let decor = old.decor().clone();
            *old = value;
            *old.decor_mut() = decor;
        } else {
            let mut value = value;
            if let Some(space) = take_closing_space(parent) {
                value.decor_mut().set_suffix(space);
            }
            parent.insert(&last.key, Item::Value(value));
        }
        Ok(())
    }

    /// Adds an entry to a list of tables from its TOML text: `add("circuit", "name = \"fan\"\n…")`.
    pub fn add(&mut self, list: &str, text: &str) -> Result<(), EditError> {
        let body = text
            .parse::<DocumentMut>()
            .map_err(|e| EditError::NotToml(e.message().to_owned()))?;
        let mut table: Table = body.as_table().clone();
        table.set_position(None);
        table.decor_mut().set_prefix("\n");
        let item = self
            .document
            .entry(list)
            .or_insert(Item::ArrayOfTables(ArrayOfTables::new()));
        let Some(tables) = item.as_array_of_tables_mut() else {
            return Err(EditError::NoSuchPlace(format!("list “{list}”")));
        };
        tables.push(table);
        Ok(())
    }

    /// Removes a key, or a whole entry when the path ends in one: `remove("circuit[rack lamps]")`.
    pub fn remove(&mut self, path: &str) -> Result<(), EditError> {
        let gone = || EditError::NoSuchPlace(format!("“{path}”"));
        let (parent, last) = self.descend(path, false)?;
        let Some(entry) = last.entry else {
            return parent.remove(&last.key).map(|_| ()).ok_or_else(gone);
        };
        match parent.get_mut(&last.key) {
            Some(Item::ArrayOfTables(list)) => {
                let at =
                    position(list.iter().map(|t| t as &dyn TableLike), &entry).ok_or_else(gone)?;
                list.remove(at);
                Ok(())
            }
            Some(item) => {
                let table = item.as_table_like_mut().ok_or_else(gone)?;
                table.remove(&entry).map(|_| ()).ok_or_else(gone)
            }
            None => Err(gone()),
        }
    }

    /// The table that holds the last step of the path.
    fn descend(&mut self, path: &str, make: bool) -> Result<(&mut dyn TableLike, Step), EditError> {
        let mut all = steps(path);
        let last = all
            .pop()
            .ok_or_else(|| EditError::NoSuchPlace("empty path".into()))?;
        let mut here: &mut dyn TableLike = self.document.as_table_mut();
        for step in all {
            let gone = || EditError::NoSuchPlace(format!("“{}” on the way to “{path}”", step.key));
            if make && !here.contains_key(&step.key) {
                here.insert(&step.key, Item::Table(Table::new()));
            }
            let item = here.get_mut(&step.key).ok_or_else(gone)?;
            here = match (&step.entry, item) {
                (Some(entry), Item::ArrayOfTables(list)) => {
                    let at = position(list.iter().map(|t| t as &dyn TableLike), entry)
                        .ok_or_else(gone)?;
                    list.get_mut(at).ok_or_else(gone)?
                }
                (Some(entry), item) => {
                    let table = item.as_table_like_mut().ok_or_else(gone)?;
                    if make && !table.contains_key(entry) {
                        table.insert(entry, Item::Value(Value::InlineTable(InlineTable::new())));
                    }
                    table
                        .get_mut(entry)
                        .and_then(Item::as_table_like_mut)
                        .ok_or_else(gone)?
                }
                (None, item) => item.as_table_like_mut().ok_or_else(gone)?,
            };
        }
        Ok((here, last))
    }
}

impl fmt::Display for Editor {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        self.document.fmt(f)
    }
}

/// Takes the blank before the closing brace of an inline table off its last value, so that a value
/// added behind it stands as a person would write it.
fn take_closing_space(table: &mut dyn TableLike) -> Option<String> {
    let (_, last) = table.iter_mut().last()?;
    let decor = last.as_value_mut()?.decor_mut();
    let blank = decor.suffix().and_then(|s| s.as_str())?.to_owned();
    if blank.is_empty() || !blank.trim().is_empty() {
        return None;
    }
    decor.set_suffix("");
    Some(blank)
}

/// Entries are found by name, or by number from 1.
fn position<'a>(tables: impl Iterator<Item = &'a dyn TableLike>, entry: &str) -> Option<usize> {
    let names: Vec<Option<&str>> = tables
        .map(|t| t.get("name").and_then(Item::as_str))
        .collect();
    names.iter().position(|n| *n == Some(entry)).or_else(|| {
        entry
            .parse::<usize>()
            .ok()
            .and_then(|n| n.checked_sub(1))
            .filter(|n| *n < names.len())
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    const TEXT: &str = "# my ute\n[job]\ntitle = \"lamps\" # short\n\n[place]\n\"dash\" = { zone = \"cabin\" }\n\n[[circuit]] # the first\nname = \"rack lamps\"\ndrop = \"5 %\"  # generous\n\n[[circuit]]\nname = \"pump\"\n";

    fn edited(f: impl FnOnce(&mut Editor)) -> String {
        let mut e = Editor::new(TEXT).unwrap();
        f(&mut e);
        e.to_string()
    }

    #[test]
    fn setting_keeps_comments_and_order() {
        let out = edited(|e| e.set("circuit[rack lamps].drop", "\"4 %\"").unwrap());
        assert_eq!(out, TEXT.replace("\"5 %\"", "\"4 %\""));
        let out = edited(|e| e.set("place[dash].heat", "\"50 °C\"").unwrap());
        assert!(out.contains("zone = \"cabin\", heat = \"50 °C\""), "{out}");
        let out = edited(|e| e.set("wire[W1.2].size", "\"4 mm²\"").unwrap());
        assert!(
            out.contains("\"W1.2\" = { size = \"4 mm²\" }") || out.contains("\"W1.2\""),
            "{out}"
        );
    }

    #[test]
    fn adding_and_removing() {
        let out = edited(|e| e.add("circuit", "name = \"fan\"\nbox = \"aux\"\n").unwrap());
        assert!(out.starts_with(TEXT.trim_end()), "{out}");
        assert!(out.contains("[[circuit]]\nname = \"fan\""), "{out}");
        let out = edited(|e| e.remove("circuit[pump]").unwrap());
        assert!(
            !out.contains("pump") && out.contains("# the first"),
            "{out}"
        );
        let out = edited(|e| e.remove("circuit[2]").unwrap());
        assert!(!out.contains("pump"));
    }

    #[test]
    fn what_is_not_there_is_an_error_and_nothing_changes() {
        let mut e = Editor::new(TEXT).unwrap();
        assert!(matches!(
            e.remove("circuit[horn]"),
            Err(EditError::NoSuchPlace(_))
        ));
        assert!(matches!(
            e.set("job.title", "lamps"),
            Err(EditError::NotAValue(_))
        ));
        assert_eq!(e.to_string(), TEXT);
    }
}
