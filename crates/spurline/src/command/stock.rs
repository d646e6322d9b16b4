//! `stock`: any of the stock tables, with basis and source on every row.

use crate::args::Stock as Asked;
use crate::show::{complain, section};
use crate::{Ended, files, json};
use job::pack::{Align, Block, Column, Section, Table};
use job::{Listing, WHATS, list, nearest};
use serde::Serialize;

/// Runs it.
pub fn run(a: &Asked) -> Ended {
    listed(a).unwrap_or_else(|e| e)
}

#[derive(Serialize)]
struct Rows<'a> {
    title: &'a str,
    columns: &'a [String],
    rows: &'a [Vec<String>],
}

fn listed(a: &Asked) -> Result<Ended, Ended> {
    let sources = a
        .stock
        .iter()
        .map(|p| files::read(p))
        .collect::<Result<Vec<_>, _>>()?;
    let (stock, told) = job::laid_over(&sources);
    if !told.is_empty() {
        crate::show::errors_in(&sources, &told);
        return Err(Ended::Unread);
    }
    let Some(what) = &a.table else {
        let tables = WHATS.map(str::to_owned).to_vec();
        let block = Block::List(tables);
        let head = Section {
            id: "stock",
            title: "Tables of stock: `spurline stock NAME` lists one".into(),
            blocks: vec![block],
        };
        anstream::print!("{}", section(&head));
        return Ok(Ended::Well);
    };
    let Some(listing) = list(&stock, what) else {
        let near = nearest(what, WHATS).map_or_else(
            || WHATS.join(", "),
            |n| format!("did you mean {n}? There are {}", WHATS.join(", ")),
        );
        complain(&format!("there is no table of “{what}”"), &near);
        return Err(Ended::Unread);
    };
    show(&listing, a.json);
    Ok(Ended::Well)
}

fn show(listing: &Listing, as_json: bool) {
    if as_json {
        json::print(&Rows {
            title: &listing.title,
            columns: &listing.columns,
            rows: &listing.rows,
        });
        return;
    }
    let (rows, notes) = footnoted(&listing.rows);
    let columns = listing.columns.iter().map(|c| Column {
        title: c.clone().into(),
        align: Align::Left,
    });
    let table = Table {
        columns: columns.collect(),
        rows,
    };
    let shown = Section {
        id: "stock",
        title: listing.title.clone(),
        blocks: vec![
            Block::Table(table),
            Block::Text("Sources:".into()),
            Block::List(notes),
        ],
    };
    anstream::print!("{}", section(&shown));
}

/// The rows with their last cell, the source, as a number, and the sources by number: said in full on
/// every row they would leave no room for the rest.
fn footnoted(rows: &[Vec<String>]) -> (Vec<Vec<String>>, Vec<String>) {
    let mut sources: Vec<String> = Vec::new();
    let mut number = |source: &String| match sources.iter().position(|s| s == source) {
        Some(at) => at + 1,
        None => {
            sources.push(source.clone());
            sources.len()
        }
    };
    let mut numbered = rows.to_vec();
    for source in numbered.iter_mut().filter_map(|row| row.last_mut()) {
        *source = number(source).to_string();
    }
    let notes = sources
        .iter()
        .enumerate()
        .map(|(i, s)| format!("{}: {s}", i + 1));
    let notes = notes.collect();
    (numbered, notes)
}
