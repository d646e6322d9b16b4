//! The content as HTML: one self-contained page without script or outside request, readable on a
//! phone and in print.

use crate::content::{Align, Block, Content, Section, Table};
use finding::Finding;
use maud::{DOCTYPE, Markup, PreEscaped, html};

/// Styles shared by the printed page and the live one.
pub const STYLE: &str = include_str!("style.css");

/// The whole page, its style within it.
pub fn page(content: &Content) -> String {
    let style = html! { style { (PreEscaped(STYLE)) } };
    around(&content.title, &style, &fragment(content))
}

/// A page around a body, with what else its head needs.
pub fn around(title: &str, head: &Markup, body: &Markup) -> String {
    html! {
        (DOCTYPE)
        html lang="en" {
            head {
                meta charset="utf-8";
                meta name="viewport" content="width=device-width, initial-scale=1";
                title { (title) }
                (head)
            }
            body { (body) }
        }
    }
    .into_string()
}

/// The content without the page around it.
pub fn fragment(content: &Content) -> Markup {
    html! {
        header {
            h1 { (content.title) }
            p.vehicle {
                (content.vehicle)
                @if let Some(owner) = &content.owner { " · " (owner) }
            }
        }
        nav aria-label="Sections" {
            @for s in &content.sections { a href={ "#" (s.id) } { (short(s)) } " " }
        }
        main { @for s in &content.sections { (section(s)) } }
    }
}

/// A heading short enough for the row of links.
fn short(s: &Section) -> &str {
    if s.id == "findings" {
        "Findings"
    } else {
        s.title.split(',').next().unwrap_or(&s.title)
    }
}

fn section(s: &Section) -> Markup {
    html! {
        section id=(s.id) {
            h2 { (s.title) }
            @for b in &s.blocks { (block(b)) }
        }
    }
}

fn block(b: &Block) -> Markup {
    match b {
        Block::Text(t) => html! { p { (t) } },
        Block::List(items) => html! { ul { @for i in items { li { (i) } } } },
        Block::Table(t) => table(t),
        Block::Findings(list) => html! { @for f in list { (found(f)) } },
        Block::Drawing(sheet) => html! {
            figure { div class={ "drawing" (chart(sheet)) } tabindex="0" role="img" aria-label=(sheet.title) { (PreEscaped(&sheet.svg)) } figcaption { (sheet.title) } }
        },
    }
}

/// A chart is read as a whole and shrinks with the page; a circuit diagram keeps its size and scrolls.
fn chart(sheet: &sheet::Sheet) -> &'static str {
    if sheet.name == "day" { " chart" } else { "" }
}

/// A cell of many words keeps some width on a phone, where the table scrolls sideways; else it would grow tall.
fn long(cell: &str) -> &'static str {
    if cell.chars().count() > 28 {
        " long"
    } else {
        ""
    }
}

fn table(t: &Table) -> Markup {
    let class = |i: usize| {
        if t.columns[i].align == Align::Right {
            "figure"
        } else {
            ""
        }
    };
    html! {
        div.scroll tabindex="0" {
            table {
                thead { tr { @for (i, c) in t.columns.iter().enumerate() { th scope="col" class=(class(i)) { (c.title) } } } }
                tbody {
                    @for row in &t.rows {
                        tr { @for (i, cell) in row.iter().enumerate() { td class={ (class(i)) (long(cell)) } { (cell) } } }
                    }
                }
            }
        }
    }
}

fn found(f: &Finding) -> Markup {
    html! {
        article class={ "finding " (f.weight) } {
            p.says { strong { (f.weight) } " " (f.says) }
            p.mend { "Mend: " (f.mend) }
            p.source { (f.id) " · " (f.source) }
        }
    }
}
