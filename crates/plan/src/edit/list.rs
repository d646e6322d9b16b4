//! Lists in a plan stand as `[[circuit]]` tables, as `load = [{ … }, { … }]`, or as one table alone; entries of `[place]` and
//! `[wire]` are keys. Whichever it is, an entry is found, added and taken out.

use super::EditError;
use toml_edit::{Array, ArrayOfTables, DocumentMut, InlineTable, Item, Table, TableLike, Value};

/// What a plan holds lists of; a single entry may stand there alone.
const LISTS: [&str; 8] = [
    "circuit", "load", "stretch", "box", "feed", "earth", "signal", "day",
];

/// Entries are found by name, or by number from 1.
fn position<'a>(tables: impl Iterator<Item = Option<&'a str>>, entry: &str) -> Option<usize> {
    let names: Vec<Option<&str>> = tables.collect();
    names.iter().position(|n| *n == Some(entry)).or_else(|| {
        entry
            .parse::<usize>()
            .ok()
            .and_then(|n| n.checked_sub(1))
            .filter(|n| *n < names.len())
    })
}

fn name_of(table: &dyn TableLike) -> Option<&str> {
    table.get("name").and_then(Item::as_str)
}

fn in_array(array: &Array, entry: &str) -> Option<usize> {
    let tables = array.iter().map(|v| v.as_inline_table());
    position(
        tables.map(|t| t.and_then(|t| t.get("name")).and_then(Value::as_str)),
        entry,
    )
}

fn in_tables(list: &ArrayOfTables, entry: &str) -> Option<usize> {
    position(list.iter().map(|t| name_of(t)), entry)
}

/// The entry of a list under a key. `make`: one of named entries is made if it is not there.
pub(super) fn find<'a>(
    item: &'a mut Item,
    key: &str,
    entry: &str,
    make: bool,
) -> Option<&'a mut dyn TableLike> {
    let alone = LISTS.contains(&key);
    match item {
        Item::ArrayOfTables(list) => {
            let at = in_tables(list, entry)?;
            list.get_mut(at).map(|t| t as &mut dyn TableLike)
        }
        Item::Value(Value::Array(array)) => {
            let at = in_array(array, entry)?;
            let table = array.get_mut(at)?.as_inline_table_mut();
            table.map(|t| t as &mut dyn TableLike)
        }
        item if alone => {
            let table = item.as_table_like_mut()?;
            position([name_of(table)].into_iter(), entry).map(|_| table)
        }
        item => {
            let table = item.as_table_like_mut()?;
            if make && !table.contains_key(entry) {
                table.insert(entry, Item::Value(Value::InlineTable(InlineTable::new())));
            }
            table.get_mut(entry).and_then(Item::as_table_like_mut)
        }
    }
}

/// Takes an entry out. A list that is left without one goes with it.
pub(super) fn remove(parent: &mut dyn TableLike, key: &str, entry: &str) -> Option<()> {
    let item = parent.get_mut(key)?;
    let emptied = match item {
        Item::ArrayOfTables(list) => {
            let at = in_tables(list, entry)?;
            list.remove(at);
            list.is_empty()
        }
        Item::Value(Value::Array(array)) => {
            let at = in_array(array, entry)?;
            array.remove(at);
            array.is_empty()
        }
        item if LISTS.contains(&key) => {
            let table = item.as_table_like_mut()?;
            position([name_of(table)].into_iter(), entry)?;
            true
        }
        item => {
            item.as_table_like_mut()?.remove(entry)?;
            false
        }
    };
    if emptied {
        parent.remove(key);
    }
    Some(())
}

/// Adds an entry, written as its own small document, in the way in which the list is written already: a list at the top of the
/// plan as `[[…]]`, one within something as `[{ … }]`.
pub(super) fn add(
    parent: &mut dyn TableLike,
    key: &str,
    at_top: bool,
    text: &str,
) -> Result<(), EditError> {
    let body = text
        .parse::<DocumentMut>()
        .map_err(|e| EditError::NotToml(e.message().to_owned()))?;
    let no_list = || EditError::NoSuchPlace(format!("list “{key}”"));
    let inline = || body.as_table().clone().into_inline_table();
    if !parent.contains_key(key) {
        let list = match at_top {
            true => Item::ArrayOfTables(ArrayOfTables::new()),
            false => Item::Value(Value::Array(Array::new())),
        };
        parent.insert(key, list);
    }
    match parent.get_mut(key).ok_or_else(no_list)? {
        Item::ArrayOfTables(list) => {
            let mut table: Table = body.as_table().clone();
            table.set_position(None);
            table.decor_mut().set_prefix("\n");
            list.push(table);
        }
        Item::Value(Value::Array(array)) => {
            let lines = array.iter().last().and_then(|v| v.decor().prefix());
            let prefix = lines.and_then(|p| p.as_str()).map(str::to_owned);
            let mut value = Value::InlineTable(inline());
            match prefix.filter(|p| p.contains('\n')) {
                Some(prefix) => value.decor_mut().set_prefix(prefix),
                None if array.is_empty() => {}
                None => value.decor_mut().set_prefix(" "),
            }
            array.push_formatted(value);
        }
        Item::Value(value @ Value::InlineTable(_)) => {
            let decor = value.decor().clone();
            let mut first = value.clone();
            first.decor_mut().clear();
            let mut array = Array::new();
            array.push_formatted(first);
            array.push(inline());
            *value = Value::Array(array);
            *value.decor_mut() = decor;
        }
        _ => return Err(no_list()),
    }
    Ok(())
}
