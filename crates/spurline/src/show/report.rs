//! The content of a report on a terminal.

use super::{FAINT, HEAD, MEND, NOTE, STOP, width};
use anstyle::Style;
use comfy_table::{Cell, CellAlignment, ContentArrangement, LineStyle, Table as Grid, TableStyle};
use job::pack::{Align, Block, Content, Section, Table};
use job::{Finding, Weight};
use std::fmt::Write;

/// A whole report as text.
pub fn content(c: &Content) -> String {
    let mut out = format!("{HEAD}{}{HEAD:#}\n", c.title);
    if !c.vehicle.is_empty() {
        let _ = writeln!(out, "{}", c.vehicle);
    }
    for s in &c.sections {
        out += &section(s);
    }
    out
}

/// One section as text.
pub fn section(s: &Section) -> String {
    let mut out = format!("\n{HEAD}{}{HEAD:#}\n", s.title);
    for b in &s.blocks {
        match b {
            Block::Text(t) => out += &wrap(t, ""),
            Block::List(items) => {
                for i in items {
                    out += &wrap(i, "· ");
                }
            }
            Block::Table(t) => out += &table(t),
            Block::Findings(list) => {
                for f in list {
                    out += &finding(f);
                }
            }
            Block::Drawing(d) | Block::Picture(d) => {
                let _ = writeln!(out, "({}: see `spurline draw`)", d.title);
            }
            Block::Heading(t) => {
                let _ = writeln!(out, "\n{HEAD}{t}{HEAD:#}");
            }
            Block::Terms(terms) => {
                for (term, lines) in terms {
                    let _ = writeln!(out, "{term}");
                    lines.iter().for_each(|line| out += &wrap(line, "· "));
                }
            }
            Block::Card(blocks) | Block::Together(blocks) => {
                let inner = Section {
                    id: s.id,
                    title: String::new(),
                    blocks: blocks.clone(),
                };
                out += &section(&inner);
            }
            Block::Labels(labels) => out += &wrap(&labels.join(", "), ""),
            Block::Break => {}
        }
    }
    out
}

fn style(w: Weight) -> Style {
    match w {
        Weight::Stop => STOP,
        Weight::Mend => MEND,
        Weight::Note => NOTE,
    }
}

fn finding(f: &Finding) -> String {
    let style = style(f.weight);
    let mut out = String::new();
    let says = wrap(&f.says, "     ");
    let _ = write!(out, "{style}{}{style:#} {}", f.weight, says.trim_start());
    out += &wrap(&format!("mend: {}", f.mend), "     ");
    let _ = write!(
        out,
        "{FAINT}{}{FAINT:#}",
        wrap(&format!("{} · {}", f.id, f.source), "     ")
    );
    out
}

/// A text as lines of the terminal's width.
pub fn text(t: &str) -> String {
    wrap(t, "")
}

/// Wraps a text to the width; the first line has the lead, the others are set in by as much.
fn wrap(text: &str, lead: &str) -> String {
    let indent = " ".repeat(lead.chars().count());
    let room = width().saturating_sub(indent.len()).max(20);
    let mut lines = vec![String::new()];
    for word in text.split_whitespace() {
        let line = lines.last_mut().expect("there is always a line");
        if !line.is_empty() && line.chars().count() + 1 + word.chars().count() > room {
            lines.push(word.to_owned());
        } else {
            if !line.is_empty() {
                line.push(' ');
            }
            line.push_str(word);
        }
    }
    let mut out = String::new();
    for (i, line) in lines.iter().enumerate() {
        let _ = writeln!(out, "{}{line}", if i == 0 { lead } else { &indent });
    }
    out
}

fn table(t: &Table) -> String {
    let mut grid = Grid::new();
    // A rule under the headings, blanks between columns, nothing else.
    grid.load_style(TableStyle::new().header_separator(LineStyle::none().fill('─')));
    grid.set_content_arrangement(ContentArrangement::Dynamic);
    grid.set_width(u16::try_from(width()).unwrap_or(110));
    grid.set_header(t.columns.iter().map(|c| Cell::new(&c.title)));
    for row in &t.rows {
        grid.add_row(row.iter().map(Cell::new));
    }
    for (i, c) in t.columns.iter().enumerate() {
        if let Some(column) = grid.column_mut(i) {
            column.set_padding((0, 2));
            column.set_cell_alignment(match c.align {
                Align::Left => CellAlignment::Left,
                Align::Right => CellAlignment::Right,
            });
        }
    }
    let lines: Vec<String> = grid.lines().map(|l| l.trim_end().to_owned()).collect();
    lines.join("\n") + "\n"
}
