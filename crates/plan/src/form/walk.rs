//! Every answer in a text, with its question.

use crate::ask::{Ask, LOAD, Stands, TABLES, Takes, table};
use crate::edit::names_of;
use crate::{Entry, Node, Written};

/// The question that a path answers: `circuit[rack lamps].load[1].rated`.
pub fn ask_at(path: &str) -> Option<&'static Ask> {
    let steps = names_of(path);
    let (first, rest) = steps.split_first()?;
    let mut asks = table(&first.0)?.asks;
    let mut found = None;
    for (key, _) in rest {
        if key == "load" && found.is_none() && first.0 == "circuit" {
            asks = LOAD;
            continue;
        }
        let ask = asks.iter().find(|a| a.key == key)?;
        if let Takes::Table(inner) | Takes::Fuse(inner) = ask.takes {
            asks = inner;
        }
        found = Some(ask);
    }
    found
}

/// What stands at a path.
pub(super) fn at<'a>(written: &'a Written, path: &str) -> Option<&'a Node> {
    let mut here = written.top();
    for (key, entry) in names_of(path) {
        here = match entry.as_str() {
            "" => here.get(&key)?.0,
            name => {
                let listed = here.entries("", &key);
                let steps = |e: &Entry| names_of(&e.path).pop().map(|(_, n)| n);
                let found = listed
                    .iter()
                    .find(|e| e.name == Some(name))
                    .or_else(|| listed.iter().find(|e| steps(e).as_deref() == Some(name)));
                let by_number = || {
                    name.parse::<usize>()
                        .ok()
                        .and_then(|n| listed.get(n.checked_sub(1)?))
                };
                match found.or_else(by_number) {
                    Some(entry) => entry.node,
                    None => here.get(&key)?.0.get(name)?.0,
                }
            }
        };
    }
    Some(here)
}

fn of_asks(
    node: &Node,
    path: &str,
    asks: &'static [Ask],
    tell: &mut dyn FnMut(&str, &'static Ask, &Node),
) {
    for ask in asks {
        let Some((inner, _)) = node.get(ask.key) else {
            continue;
        };
        let here = format!("{path}.{}", ask.key);
        tell(&here, ask, inner);
        if let Takes::Table(asks) | Takes::Fuse(asks) = ask.takes {
            of_asks(inner, &here, asks, tell);
        }
    }
}

/// Tells every answer of a text: its path, its question, what stands there.
pub fn each(written: &Written, tell: &mut dyn FnMut(&str, &'static Ask, &Node)) {
    for table in &TABLES {
        let top = written.top();
        let entries = match table.stands {
            Stands::Once => {
                if let Some((node, _)) = top.get(table.key) {
                    of_asks(node, table.key, table.asks, tell);
                }
                continue;
            }
            Stands::Listed => top.entries("", table.key),
            Stands::Named => top.named(table.key),
        };
        for entry in entries {
            of_asks(entry.node, &entry.path, table.asks, tell);
            if table.key == "circuit" {
                for load in entry.node.entries(&entry.path, "load") {
                    of_asks(load.node, &load.path, LOAD, tell);
                }
            }
        }
    }
}

/// What stands at a path, as a form shows it: a list line by line, the name of an entry that stands by its name, nothing.
pub fn said(written: &Written, path: &str) -> String {
    let by_name = || {
        let steps = names_of(path);
        let [(list, name)] = steps.as_slice() else {
            return None;
        };
        let stands = table(list)?.stands;
        (stands == Stands::Named && !name.is_empty()).then(|| name.clone())
    };
    match at(written, path) {
        Some(node @ Node::List(_)) => node.texts().join("\n"),
        Some(node) => node.typed().or_else(by_name).unwrap_or_default(),
        None => String::new(),
    }
}
