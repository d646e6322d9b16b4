//! Edits of a plan's text that keep comments and order: set this, add that, remove that.
//!
//! | file | what |
//! |---|---|
//! | `path` | where something stands, as a text |
//! | `list` | entries of lists, however a plan writes them |

mod list;
mod path;

pub use path::entry;
pub(crate) use path::names_of;
use path::{Step, steps};
use std::fmt;
use toml_edit::{DocumentMut, InlineTable, Item, Key, Table, TableLike, Value};

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
    /// Another entry has this name already.
    Taken(String),
}

impl fmt::Display for EditError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::NotToml(e) => write!(f, "the plan is not TOML: {e}"),
            Self::NotAValue(v) => write!(f, "“{v}” is not a value; texts go in quotes"),
            Self::NoSuchPlace(p) => write!(f, "the plan has no {p}"),
            Self::Taken(name) => write!(f, "there is a “{name}” already"),
        }
    }
}

impl std::error::Error for EditError {}

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
            insert(parent, &last.key, value);
        }
        Ok(())
    }

    /// Puts an entry into a table of named ones: `put("place", "dash", "{ zone = \"cabin\" }")`. The table is made if it is not
    /// there yet.
    pub fn put(&mut self, table: &str, name: &str, value: &str) -> Result<(), EditError> {
        let value: Value = value
            .parse()
            .map_err(|_| EditError::NotAValue(value.to_owned()))?;
        let top = self.document.as_table_mut();
        let item = top.entry(table).or_insert(Item::Table(Table::new()));
        let no_table = || EditError::NoSuchPlace(format!("table “{table}”"));
        let inner = item.as_table_like_mut().ok_or_else(no_table)?;
        inner.insert(name, Item::Value(value));
        Ok(())
    }

    /// Adds an entry to a list from its TOML text: `add("circuit", "name = \"fan\"\n…")`, `add("circuit[fan].load", …)`.
    pub fn add(&mut self, list: &str, text: &str) -> Result<(), EditError> {
        let at_top = steps(list).len() == 1;
        let (parent, last) = self.descend(list, true)?;
        list::add(parent, &last.key, at_top, text)
    }

    /// Removes a key, or a whole entry when the path ends in one: `remove("circuit[rack lamps]")`.
    pub fn remove(&mut self, path: &str) -> Result<(), EditError> {
        let gone = || EditError::NoSuchPlace(format!("“{path}”"));
        let (parent, last) = self.descend(path, false)?;
        match last.entry {
            Some(entry) => list::remove(parent, &last.key, &entry),
            None => parent.remove(&last.key).map(|_| ()),
        }
        .ok_or_else(gone)
    }

    /// Gives a key of a table another name where it stands: `rename("place", "dash", "dashboard")`.
    pub fn rename(&mut self, table: &str, old: &str, new: &str) -> Result<(), EditError> {
        let gone = || EditError::NoSuchPlace(format!("“{old}”"));
        let (parent, last) = self.descend(table, false)?;
        let item = parent.get_mut(&last.key).ok_or_else(gone)?;
        let table = item.as_table_like().ok_or_else(gone)?;
        if !table.contains_key(old) {
            return Err(gone());
        }
        if table.contains_key(new) {
            return Err(EditError::Taken(new.to_owned()));
        }
        // Taken out and put back one by one, so that the order stays.
        let keys: Vec<Key> = table
            .iter()
            .filter_map(|(k, _)| table.key(k).cloned())
            .collect();
        for key in keys {
            let Some(value) = item.as_table_like_mut().and_then(|t| t.remove(key.get())) else {
                continue;
            };
            let written = match key.get() == old {
                true => named_like(&key, new),
                false => key,
            };
            match &mut *item {
                Item::Table(table) => table.insert_formatted(&written, value),
                Item::Value(Value::InlineTable(table)) => {
                    let value = value.into_value().map_err(|_| gone())?;
                    table.insert_formatted(&written, value).map(Item::Value)
                }
                _ => return Err(gone()),
            };
        }
        Ok(())
    }

    /// The table that holds the last step of the path.
    fn descend(&mut self, path: &str, make: bool) -> Result<(&mut dyn TableLike, Step), EditError> {
        let mut all = steps(path);
        let last = all
            .pop()
            .ok_or_else(|| EditError::NoSuchPlace("empty path".into()))?;
        let mut here: &mut dyn TableLike = self.document.as_table_mut();
        for (depth, step) in all.iter().enumerate() {
            let gone = || EditError::NoSuchPlace(format!("“{}” on the way to “{path}”", step.key));
            if make && !here.contains_key(&step.key) {
                match depth {
                    0 => {
                        here.insert(&step.key, Item::Table(Table::new()));
                    }
                    _ => insert(here, &step.key, Value::InlineTable(InlineTable::new())),
                }
            }
            let item = here.get_mut(&step.key).ok_or_else(gone)?;
            here = match &step.entry {
                Some(entry) => list::find(item, &step.key, entry, make).ok_or_else(gone)?,
                None => {
                    if make {
                        grow(&step.key, item);
                    }
                    item.as_table_like_mut().ok_or_else(gone)?
                }
            };
        }
        Ok((here, last))
    }
}

/// A key of another name, in quotes, with the blanks and comments around the one that it replaces.
fn named_like(key: &Key, name: &str) -> Key {
    let quoted = Value::from(name).to_string();
    let parsed = Key::parse(&quoted).ok().and_then(|mut k| k.pop());
    let named = parsed.unwrap_or_else(|| Key::new(name));
    named
        .with_leaf_decor(key.leaf_decor().clone())
        .with_dotted_decor(key.dotted_decor().clone())
}

/// The short form of a fuse grows into its long one, so that more can be said of it.
fn grow(key: &str, item: &mut Item) {
    let Some(rating) = item.as_value().filter(|v| key == "fuse" && v.is_str()) else {
        return;
    };
    let decor = rating.decor().clone();
    let mut rating = rating.clone();
    rating.decor_mut().clear();
    let mut table = InlineTable::new();
    table.insert("rating", rating);
    *table.decor_mut() = decor;
    *item = Item::Value(Value::InlineTable(table));
}

impl fmt::Display for Editor {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        self.document.fmt(f)
    }
}

/// Puts a value behind the others of a table.
fn insert(table: &mut dyn TableLike, key: &str, mut value: Value) {
    if let Some(space) = take_closing_space(table) {
        value.decor_mut().set_suffix(space);
    }
    table.insert(key, Item::Value(value));
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
        let out = edited(|e| e.set("place[dash].at.along", "\"5 %\"").unwrap());
        assert!(
            out.contains("{ zone = \"cabin\", at = { along = \"5 %\" } }"),
            "{out}"
        );
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

    const LOADS: &str = "[[circuit]]\nname = \"a\"\nload = { lamp = \"LED\", rated = \"5 W\" } # one\nfuse = \"5 A\" # small\n\n[[circuit]]\nname = \"b\"\nload = [\n  { socket = \"USB\", name = \"bed\" },\n]\n";

    fn of_loads(f: impl FnOnce(&mut Editor)) -> String {
        let mut e = Editor::new(LOADS).unwrap();
        f(&mut e);
        e.to_string()
    }

    #[test]
    fn entries_of_lists_within_entries() {
        let out = of_loads(|e| e.set("circuit[a].load[1].rated", "\"9 W\"").unwrap());
        assert_eq!(out, LOADS.replace("5 W", "9 W"));
        let out = of_loads(|e| e.set("circuit[b].load[bed].rated", "\"2 A\"").unwrap());
        assert!(out.contains("name = \"bed\", rated = \"2 A\" }"), "{out}");
        let out = of_loads(|e| e.add("circuit[a].load", "motor = \"fan\"").unwrap());
        assert!(
            out.contains("[{ lamp = \"LED\", rated = \"5 W\" }, { motor = \"fan\" }] # one"),
            "{out}"
        );
        let out = of_loads(|e| e.add("circuit[b].load", "motor = \"fan\"").unwrap());
        assert!(
            out.contains("\n  { socket = \"USB\", name = \"bed\" },\n  { motor = \"fan\" },\n]"),
            "{out}"
        );
        let out = of_loads(|e| e.remove("circuit[b].load[1]").unwrap());
        assert!(
            !out.contains("USB") && out.matches("load").count() == 1,
            "{out}"
        );
    }

    #[test]
    fn a_short_fuse_grows_when_more_is_said_of_it() {
        let out = of_loads(|e| e.set("circuit[a].fuse.within", "\"100 mm\"").unwrap());
        assert!(
            out.contains("fuse = { rating = \"5 A\", within = \"100 mm\" } # small"),
            "{out}"
        );
    }

    #[test]
    fn a_place_gets_another_name_where_it_stands() {
        let text = "[place]\n\"dash\" = { zone = \"cabin\" }  # here\n# the rack\n\"rack\" = { zone = \"outside\" }\n\n[[circuit]]\nname = \"a\"\n";
        let mut e = Editor::new(text).unwrap();
        e.rename("place", "dash", "the board").unwrap();
        assert_eq!(e.to_string(), text.replace("\"dash\"", "\"the board\""));
        assert_eq!(
            e.rename("place", "rack", "the board"),
            Err(EditError::Taken("the board".to_owned()))
        );
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
