//! The content as the typesetter's markup. Every word of the content goes in as a string literal, so
//! that nothing in it can be taken for markup.

use crate::content::{Align, Block, Content, Section, Table};
use finding::Finding;
use std::collections::BTreeMap;
use std::fmt::Write;

/// Look of the pack: A4, one typeface, tables that break across pages with their headings.
const STYLE: &str = include_str!("style.typ");

/// Writes the markup, and puts each drawing under its file name into `files`.
pub(super) fn write(content: &Content, files: &mut BTreeMap<String, String>) -> String {
    let mut out = String::from(STYLE);
    let owner = content.owner.as_deref().unwrap_or("");
    // Pages of their own need none before them.
    let headed = !content.sections.iter().all(own_page);
    let _ = writeln!(
        out,
        "#show: pack.with({}, {}, {}, {}, {}, {headed})",
        text(&content.title),
        text(&content.vehicle),
        text(owner),
        content.date.as_deref().map_or("none".to_owned(), text),
        text(content.paper.name())
    );
    for s in &content.sections {
        section(&mut out, s, files);
    }
    out
}

/// A string literal.
fn text(words: &str) -> String {
    let mut out = String::from("\"");
    for c in words.chars() {
        match c {
            '"' => out.push_str("\\\""),
            '\\' => out.push_str("\\\\"),
            c if c.is_control() => out.push(' '),
            c => out.push(c),
        }
    }
    out.push('"');
    out
}

/// Whether a section is a drawing or a card, each on paper of its own.
fn own_page(s: &Section) -> bool {
    matches!(s.blocks.first(), Some(Block::Drawing(_) | Block::Card(_)))
}

/// These are worked from, and begin on a page of their own.
const BEGIN: [&str; 4] = ["buy", "steps", "tests", "charts"];

fn section(out: &mut String, s: &Section, files: &mut BTreeMap<String, String>) {
    // A page of a drawing or card has no room for a heading: it bears its own title, and is marked for the contents.
    let drawn = own_page(s);
    if BEGIN.contains(&s.id) {
        out.push_str("#pagebreak(weak: true)\n");
    }
    if !drawn {
        let _ = writeln!(out, "#heading({})", text(&s.title));
    }
    let mut marked = !drawn;
    for b in &s.blocks {
        if let Block::Drawing(d) = b {
            let title = if marked {
                "none".to_owned()
            } else {
                text(&s.title)
            };
            let name = format!("{}.svg", d.name);
            let _ = writeln!(
                out,
                "#drawing({}, {}, {}mm, {}mm, {title})",
                text(&name),
                text(&d.title),
                d.width_mm,
                d.height_mm
            );
            files.insert(name, d.svg.clone());
            marked = true;
            continue;
        }
        if let Block::Card(blocks) = b {
            let _ = writeln!(out, "#card({})[", text(&s.title));
            blocks.iter().for_each(|b| block(out, b, files));
            out.push_str("]\n");
            continue;
        }
        block(out, b, files);
    }
}

fn block(out: &mut String, b: &Block, files: &mut BTreeMap<String, String>) {
    match b {
        Block::Text(t) => {
            let _ = writeln!(out, "#par({})", text(t));
        }
        Block::List(items) => {
            let items: Vec<_> = items.iter().map(|i| text(i)).collect();
            let _ = writeln!(out, "#list({})", items.join(", "));
        }
        Block::Table(t) => table(out, t),
        Block::Findings(list) => list.iter().for_each(|f| finding(out, f)),
        Block::Drawing(d) | Block::Picture(d) => {
            let name = format!("{}.svg", d.name);
            let _ = writeln!(
                out,
                "#picture({}, {}, {}mm, {}mm)",
                text(&name),
                text(&d.title),
                d.width_mm,
                d.height_mm
            );
            files.insert(name, d.svg.clone());
        }
        Block::Heading(t) => {
            let _ = writeln!(out, "#heading(level: 2, {})", text(t));
        }
        Block::Terms(terms) => {
            for (term, lines) in terms {
                let lines: Vec<_> = lines.iter().map(|l| text(l)).collect();
                let _ = writeln!(out, "#term({}, ({},))", text(term), lines.join(", "));
            }
        }
        // Cards stand by themselves.
        Block::Card(blocks) => blocks.iter().for_each(|b| block(out, b, files)),
        Block::Labels(labels) => {
            let labels: Vec<_> = labels.iter().map(|l| text(l)).collect();
            let _ = writeln!(out, "#labels({})", labels.join(", "));
        }
        Block::Break => out.push_str("#pagebreak(weak: true)\n"),
        Block::Together(blocks) => {
            out.push_str("#block(breakable: false, width: 100%)[\n");
            blocks.iter().for_each(|b| block(out, b, files));
            out.push_str("]\n");
        }
    }
}

fn table(out: &mut String, t: &Table) {
    let sides: Vec<_> = t
        .columns
        .iter()
        .map(|c| {
            if c.align == Align::Right {
                "right"
            } else {
                "left"
            }
        })
        .collect();
    let heads: Vec<_> = t.columns.iter().map(|c| text(&c.title)).collect();
    // Figures keep their width; words share what is left by how long they run.
    let widths: Vec<_> = (0..t.columns.len()).map(|i| width(t, i)).collect();
    let _ = writeln!(
        out,
        "#rows(({},), ({},), ({},),",
        widths.join(", "),
        sides.join(", "),
        heads.join(", ")
    );
    for row in &t.rows {
        let cells: Vec<_> = row.iter().map(|c| text(c)).collect();
        let _ = writeln!(out, "  {},", cells.join(", "));
    }
    out.push_str(")\n");
}

/// Cells longer than this share the page's width; shorter ones take what they need.
const LONG_CELL: usize = 18;

fn width(t: &Table, column: usize) -> String {
    let longest = t
        .rows
        .iter()
        .map(|r| r[column].chars().count())
        .max()
        .unwrap_or(0);
    if longest > LONG_CELL {
        format!("{longest}fr")
    } else {
        "auto".into()
    }
}

fn finding(out: &mut String, f: &Finding) {
    let source = format!("{} · {}", f.id, f.source);
    let _ = writeln!(
        out,
        "#found({}, {}, {}, {})",
        text(&f.weight.to_string()),
        text(&f.says),
        text(&format!("Mend: {}", f.mend)),
        text(&source)
    );
}
