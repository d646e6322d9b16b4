//! What stands in a plan's text, whatever it means: every value as it was written, with its place. Forms show it, also where
//! the plan can't be read.

use finding::Span;
use toml::de::{DeArray, DeTable, DeValue};

/// A value as it stands.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Node {
    /// A text, without its quotes.
    Text(String),
    /// A number, true, false, a date: as written.
    Plain(String),
    /// A list.
    List(Vec<(Node, Span)>),
    /// A table: keys in the order of the text.
    Table(Vec<(String, Node, Span)>),
}

/// An entry of a list or of named tables.
#[derive(Clone, Debug)]
pub struct Entry<'a> {
    /// Its path: `circuit[rack lamps]`.
    pub path: String,
    /// Its name, if it has one.
    pub name: Option<&'a str>,
    /// What stands in it.
    pub node: &'a Node,
    /// Where.
    pub span: Span,
}

/// A plan's text as a tree. What is no TOML is left out.
#[derive(Clone, Debug)]
pub struct Written {
    top: Node,
}

fn node(value: &DeValue) -> Node {
    match value {
        DeValue::String(s) => Node::Text(s.to_string()),
        DeValue::Integer(n) => Node::Plain(n.as_str().to_owned()),
        DeValue::Float(n) => Node::Plain(n.as_str().to_owned()),
        DeValue::Boolean(b) => Node::Plain(b.to_string()),
        DeValue::Datetime(d) => Node::Plain(d.to_string()),
        DeValue::Array(array) => list(array),
        DeValue::Table(inner) => table(inner),
    }
}

fn list(array: &DeArray) -> Node {
    let each = array.iter().map(|v| (node(v.get_ref()), v.span().into()));
    Node::List(each.collect())
}

fn table(inner: &DeTable) -> Node {
    let mut entries: Vec<_> = inner.iter().collect();
    entries.sort_by_key(|(key, _)| key.span().start);
    let each = entries.into_iter().map(|(key, v)| {
        let key = key.get_ref().to_string();
        (key, node(v.get_ref()), v.span().into())
    });
    Node::Table(each.collect())
}

impl Node {
    /// What stands under a key.
    pub fn get(&self, key: &str) -> Option<(&Node, Span)> {
        let Self::Table(entries) = self else {
            return None;
        };
        let found = entries.iter().find(|(k, ..)| k == key);
        found.map(|(_, node, span)| (node, *span))
    }

    /// As one would type it into a form: a text without quotes, a list with commas.
    pub fn typed(&self) -> Option<String> {
        match self {
            Self::Text(t) | Self::Plain(t) => Some(t.clone()),
            Self::List(items) => {
                let each: Option<Vec<String>> = items.iter().map(|(n, _)| n.typed()).collect();
                each.map(|each| each.join(", "))
            }
            Self::Table(_) => None,
        }
    }

    /// The texts of a list, or one text.
    pub fn texts(&self) -> Vec<&str> {
        match self {
            Self::Text(t) | Self::Plain(t) => vec![t],
            Self::List(items) => items.iter().flat_map(|(n, _)| n.texts()).collect(),
            Self::Table(_) => Vec::new(),
        }
    }

    fn name(&self) -> Option<&str> {
        match self.get("name") {
            Some((Self::Text(name), _)) => Some(name),
            _ => None,
        }
    }

    /// The entries of a list of tables under a key, or of one alone. `within`: the path of what holds it.
    pub fn entries(&self, within: &str, key: &str) -> Vec<Entry<'_>> {
        let Some((list, span)) = self.get(key) else {
            return Vec::new();
        };
        let alone;
        let items: &[(Node, Span)] = match list {
            Self::List(items) => items,
            Self::Table(_) => {
                alone = [(list, span)];
                return alone
                    .iter()
                    .map(|(node, span)| entry(within, key, 0, (node, *span), true))
                    .collect();
            }
            _ => return Vec::new(),
        };
        let names: Vec<_> = items.iter().map(|(n, _)| n.name()).collect();
        let own = |name: Option<&str>| {
            name.is_some_and(|n| names.iter().filter(|o| **o == Some(n)).count() == 1)
        };
        let each = items
            .iter()
            .enumerate()
            .map(|(i, (node, span))| entry(within, key, i, (node, *span), own(node.name())));
        each.collect()
    }

    /// The entries that the installer named, under a key.
    pub fn named(&self, key: &str) -> Vec<Entry<'_>> {
        let Some((Self::Table(entries), _)) = self.get(key) else {
            return Vec::new();
        };
        let each = entries.iter().map(|(name, node, span)| Entry {
            path: crate::edit::entry(key, name),
            name: Some(name),
            node,
            span: *span,
        });
        each.collect()
    }
}

/// An entry by its name if that is its own, else by its number.
fn entry<'a>(
    within: &str,
    key: &str,
    i: usize,
    (node, span): (&'a Node, Span),
    own: bool,
) -> Entry<'a> {
    let name = node.name();
    let by = match name.filter(|_| own) {
        Some(name) => crate::edit::entry(key, name),
        None => crate::edit::entry(key, &(i + 1).to_string()),
    };
    Entry {
        path: match within {
            "" => by,
            within => format!("{within}.{by}"),
        },
        name,
        node,
        span,
    }
}

impl Written {
    /// Reads a text.
    pub fn read(text: &str) -> Self {
        let (document, _) = DeTable::parse_recoverable(text);
        Self {
            top: table(document.get_ref()),
        }
    }

    /// What stands at the top.
    pub fn top(&self) -> &Node {
        &self.top
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::Editor;

    const TEXT: &str = "[place]\n\"b ]\" = { zone = \"cabin\" }\na = { zone = 7 }\n\n[[circuit]]\nname = \"x\"\nload = { lamp = \"LED\" }\nonly = [\"p\", \"q\"]\n[[circuit]]\nname = \"x\"\n[[circuit]]\nname = \"y\"\nload = [{ motor = \"fan\" }, { motor = \"pump\", name = \"p\" }]\n";

    #[test]
    fn what_is_written_is_found_with_its_path() {
        let read = Written::read(TEXT);
        let named: Vec<_> = read
            .top()
            .named("place")
            .into_iter()
            .map(|e| e.path)
            .collect();
        assert_eq!(named, ["place[\"b ]\"]", "place[a]"]);
        let circuits = read.top().entries("", "circuit");
        let paths: Vec<_> = circuits.iter().map(|e| e.path.as_str()).collect();
        assert_eq!(paths, ["circuit[1]", "circuit[2]", "circuit[y]"]);
        let loads = circuits[2].node.entries("circuit[y]", "load");
        assert_eq!(loads[0].path, "circuit[y].load[1]");
        assert_eq!(loads[1].path, "circuit[y].load[p]");
        let alone = circuits[0].node.entries("circuit[1]", "load");
        assert_eq!(alone[0].path, "circuit[1].load[1]");
        let (only, span) = circuits[0].node.get("only").unwrap();
        assert_eq!(only.typed().as_deref(), Some("p, q"));
        assert_eq!(&TEXT[span.range()], "[\"p\", \"q\"]");
    }

    #[test]
    fn every_path_is_one_that_can_be_edited() {
        let read = Written::read(TEXT);
        let mut paths: Vec<String> = Vec::new();
        for c in read.top().entries("", "circuit") {
            let loads = c.node.entries(&c.path, "load");
            paths.extend(loads.into_iter().map(|l| format!("{}.rated", l.path)));
            paths.push(format!("{}.drop", c.path));
        }
        paths.extend(
            read.top()
                .named("place")
                .into_iter()
                .map(|p| format!("{}.heat", p.path)),
        );
        for path in paths {
            let mut editor = Editor::new(TEXT).unwrap();
            editor
                .set(&path, "\"9 W\"")
                .unwrap_or_else(|e| panic!("{path}: {e}"));
        }
    }

    #[test]
    fn a_text_that_is_no_toml_gives_what_can_be_read() {
        let read = Written::read("[job]\ntitle = \"a\"\nvehicle = \n[supply]\nsystem = \"12 V\"\n");
        assert!(read.top().get("job").is_some() && read.top().get("supply").is_some());
    }
}
