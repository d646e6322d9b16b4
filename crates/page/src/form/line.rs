//! An entry in a line, as an installer would say it.

use job::plan::ask::AskTable;
use job::plan::{Entry, Node};
use maud::{Markup, html};

fn said(node: &Node, key: &str) -> Option<String> {
    node.get(key)
        .and_then(|(n, _)| n.typed())
        .filter(|t| !t.is_empty())
}

/// A load: "2 × LED lamp, 20 W, at rack".
pub(super) fn load(node: &Node) -> String {
    let what = match (said(node, "lamp"), said(node, "socket")) {
        (Some(kind), _) => format!("{kind} lamp"),
        (_, Some(kind)) => format!("{kind} socket"),
        _ => ["motor", "heater", "electronics"]
            .iter()
            .find_map(|k| said(node, k))
            .unwrap_or_else(|| "something".to_owned()),
    };
    let mut out = match said(node, "count").filter(|c| c != "1") {
        Some(count) => format!("{count} × {what}"),
        None => what,
    };
    for (before, key) in [(", ", "rated"), (" at ", "place")] {
        if let Some(said) = said(node, key) {
            out += &format!("{before}{said}");
        }
    }
    out
}

fn place(node: &Node) -> String {
    let mut out = said(node, "zone").unwrap_or_default();
    if let Some(heat) = said(node, "heat") {
        out += &format!(", {heat}");
    }
    out
}

fn supply(node: &Node) -> String {
    let within = |table: &str, key: &str| node.get(table).and_then(|(n, _)| said(n, key));
    let parts = [
        said(node, "system"),
        within("battery", "capacity").map(|c| format!("battery {c}")),
        within("alternator", "rated").map(|c| format!("alternator {c}")),
    ];
    parts.into_iter().flatten().collect::<Vec<_>>().join(", ")
}

fn stretch(node: &Node) -> (String, String) {
    let ends = node
        .get("between")
        .map(|(n, _)| n.texts().join(" – "))
        .unwrap_or_default();
    let mut out = said(node, "length").unwrap_or_default();
    if said(node, "guessed").as_deref() == Some("true") {
        out += ", a guess";
    }
    if let Some(panel) = node.get("through").and_then(|(n, _)| said(n, "panel")) {
        out += &format!(", through the {panel}");
    }
    (ends, out)
}

/// With its article: "an earth point".
pub(super) fn a(what: &str) -> String {
    let vowel = what.starts_with(['a', 'e', 'i', 'o', 'u']);
    format!("{} {what}", if vowel { "an" } else { "a" })
}

/// An entry in a line.
pub(super) fn of(t: &AskTable, e: &Entry) -> Markup {
    let node = e.node;
    let name = e.name.map(str::to_owned);
    let with = |key: &str, before: &str| {
        said(node, key)
            .map(|s| format!("{before}{s}"))
            .unwrap_or_default()
    };
    let (head, rest) = match t.key {
        "job" => (
            said(node, "title").unwrap_or_else(|| "no title yet".into()),
            with("vehicle", ""),
        ),
        "supply" => (supply(node), String::new()),
        "place" => (name.unwrap_or_default(), place(node)),
        "stretch" => stretch(node),
        "box" => (
            name.unwrap_or_default(),
            format!(
                "{} ways{}",
                said(node, "ways").unwrap_or_default(),
                with("place", " at ")
            ),
        ),
        "feed" => (
            name.unwrap_or_default(),
            format!("{}{}", with("kind", ""), with("place", " at ")),
        ),
        "earth" => (
            name.unwrap_or_default(),
            format!("{}{}", with("place", "at "), with("to", ", returns to ")),
        ),
        "signal" => (name.unwrap_or_default(), with("place", "at ")),
        "circuit" => {
            let loads = node.entries("", "load");
            let loads: Vec<String> = loads.iter().map(|l| load(l.node)).collect();
            (
                name.unwrap_or_default(),
                format!("{}{}", loads.join("; "), with("box", ", from ")),
            )
        }
        "day" => (
            with("what", ""),
            format!("{}{}", with("hours", ""), with("supply", ", ")),
        ),
        _ => (
            name.unwrap_or_default(),
            format!("{}{}", with("size", ""), with("colour", " ")),
        ),
    };
    html! { span.head { (head) } " " span.rest { (rest) } }
}
