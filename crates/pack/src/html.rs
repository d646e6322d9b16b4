//! The content as HTML: one self-contained page without script or outside request, readable on a
//! phone and in print.

use crate::content::{Align, Block, Content, Section, Table};
use finding::Finding;
use maud::{DOCTYPE, Markup, PreEscaped, html};
use sheet::Sheet;

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

/// A section alone.
pub fn section(s: &Section) -> Markup {
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
        Block::Drawing(sheet) => drawing(sheet),
        Block::Picture(sheet) => html! {
            figure { div.drawing tabindex="0" role="img" aria-label=(sheet.title) { (PreEscaped(&sheet.svg)) } }
        },
        Block::Heading(t) => html! { h3 { (t) } },
        Block::Terms(terms) => html! {
            dl {
                @for (term, lines) in terms {
                    dt { (term) }
                    dd { ul { @for line in lines { li { (line) } } } }
                }
            }
        },
        Block::Card(blocks) => html! { div.card-side { @for b in blocks { (block(b)) } } },
        Block::Labels(labels) => html! { ul.labels { @for label in labels { li { (label) } } } },
        Block::Break => html! {},
        Block::Together(blocks) => html! { div.together { @for b in blocks { (block(b)) } } },
    }
}

/// Up to this width a drawing is made for a phone, mm.
const CARD_MM: f64 = 150.0;

/// A wide sheet keeps a width at which it can be read, and scrolls; the chart of a day shrinks with the page; a card
/// grows no larger than it has to.
fn drawing(sheet: &Sheet) -> Markup {
    let chart = sheet.name == "day";
    let kind = match sheet.width_mm {
        w if w <= CARD_MM => "drawing card",
        _ if chart => "drawing",
        _ => "drawing broad",
    };
    html! {
        figure {
            div class=(kind) tabindex="0" role="img" aria-label=(sheet.title) { (PreEscaped(&sheet.svg)) }
            figcaption { (sheet.title) }
        }
    }
}

/// A cell of more letters keeps some width, and on a phone a line of its own; else it would grow tall.
const LONG: usize = 28;
/// A table whose widest cells have more letters together becomes blocks on a phone.
const BROAD: usize = 36;

fn long(cell: &str) -> &'static str {
    if cell.chars().count() > LONG {
        " long"
    } else {
        ""
    }
}

/// Whether a table is too broad for a phone. Heads break between words, cells of words too.
fn broad(t: &Table) -> bool {
    let longest_word = |text: &str| {
        let words = text.split_whitespace().map(|w| w.chars().count());
        words.max().unwrap_or(0)
    };
    let width = |i: usize| {
        let cells = t.rows.iter().map(|r| match t.columns[i].align {
            Align::Right => r[i].chars().count(),
            Align::Left => r[i].chars().count().min(LONG),
        });
        cells
            .max()
            .unwrap_or(0)
            .max(longest_word(&t.columns[i].title))
            + 1
    };
    (0..t.columns.len()).map(width).sum::<usize>() > BROAD
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
            table class=[broad(t).then_some("blocks")] {
                thead { tr { @for (i, c) in t.columns.iter().enumerate() { th scope="col" class=(class(i)) { (c.title) } } } }
                tbody {
                    @for row in &t.rows {
                        tr {
                            @for (i, cell) in row.iter().enumerate() {
                                td class={ (class(i)) (long(cell)) } data-head=(t.columns[i].title) { (cell) }
                            }
                        }
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

#[cfg(test)]
mod tests {
    use super::*;
    use crate::tables::columns;

    #[test]
    fn a_table_too_broad_for_a_phone_becomes_blocks_there() {
        let narrow = Table {
            columns: columns(&[("what", Align::Left), ("a.toml", Align::Right)]),
            rows: vec![vec!["wire to cut, m".into(), "27.1".into()]],
        };
        let mut wide = narrow.clone();
        wide.rows[0][0] = "from the battery, through the bulkhead, to the dash".into();
        wide.columns.extend(columns(&[("of copper", Align::Left)]));
        wide.rows[0].push("1.01 kg".into());
        assert!(!table(&narrow).into_string().contains("blocks"));
        let blocks = table(&wide).into_string();
        assert!(blocks.contains("blocks") && blocks.contains("data-head=\"a.toml\""));
    }

    #[test]
    fn wide_sheets_keep_their_width_and_cards_stay_small() {
        let sheet = |name: &str, width_mm: f64| Sheet {
            name: name.into(),
            title: String::new(),
            svg: String::new(),
            width_mm,
            height_mm: 210.0,
        };
        assert!(
            drawing(&sheet("circuit-1", 297.0))
                .into_string()
                .contains("broad")
        );
        assert!(
            drawing(&sheet("matrix-1", 210.0))
                .into_string()
                .contains("broad")
        );
        assert!(
            !drawing(&sheet("day", 297.0))
                .into_string()
                .contains("broad")
        );
        assert!(
            drawing(&sheet("matrix-1", 128.0))
                .into_string()
                .contains("card")
        );
    }
}
