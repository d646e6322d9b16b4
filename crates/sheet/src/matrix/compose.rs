//! Each sheet put together: headings, its rows, key and title block at the foot. A card ends where its rows do, a
//! larger sheet is as large as its paper.

use super::rows::{Row, rows};
use super::split::split;
use super::table::Table;
use super::told::told;
use super::{Cell, FaultMatrix, MatrixWeight, SHOWS};
use crate::Title;
use crate::chart::{Chart, EDGE, Foot, Sample, card};
use crate::geometry::{Frame, at, border};

/// From the last row to the foot at least, mm.
const BELOW: f64 = 2.0;

/// The sheets of a matrix.
pub(super) fn charts(m: &FaultMatrix, title: &Title) -> Vec<Chart> {
    let table = Table::of(m);
    let wide = table.border.right - table.border.left;
    let foot = |number: String| Foot::new(wanted(m), title, (SHOWS, number), wide);
    // The number of sheets changes no height.
    let foots = foot("sheet 1 of 1".to_owned()).height();
    let top = table.border.top + table.head();
    let room = table.border.bottom - top - foots - BELOW;
    let sheets = split(rows(m, &table), &table, room);
    let of = sheets.len();
    let sheet = |(i, rows): (usize, &Vec<Row>)| {
        let foot = foot(format!("sheet {} of {of}", i + 1));
        sheet(m, &table, rows, &foot)
    };
    sheets.iter().enumerate().map(sheet).collect()
}

fn sheet(m: &FaultMatrix, table: &Table, rows: &[Row], foot: &Foot) -> Chart {
    let top = table.border.top + table.head();
    let tall: f64 = rows.iter().map(Row::height).sum();
    let needed = top + tall + BELOW + foot.height();
    let (size, inside) = match table.card {
        true => (card::size(card::border(needed)), card::border(needed)),
        false => larger(table, needed),
    };
    let mut chart = Chart::new(size, inside, told(m, rows));
    table.place(&mut chart, top);
    let ends = (inside.left, inside.right);
    chart.line(EDGE, vec![at(ends.0, top), at(ends.1, top)]);
    let mut y = top;
    for row in rows {
        row.place(&mut chart, table, y);
        y += row.height();
    }
    foot.place(&mut chart);
    chart
}

/// The paper's size, or taller where a row by itself is.
fn larger(table: &Table, needed: f64) -> ((f64, f64), Frame) {
    let more = (needed - table.border.bottom).max(0.0);
    let size = (table.size.0, table.size.1 + more);
    (size, border(size.0, size.1))
}

/// What the key explains: what there is in the whole matrix, so that all its sheets have one key.
fn wanted(m: &FaultMatrix) -> Vec<(Sample, String)> {
    let cells = Cell::ALL.into_iter().filter_map(|(cell, word)| {
        let there = m.rows.iter().any(|r| r.cells.contains(&cell));
        let (fill, sign) = cell.look()?;
        there.then(|| (Sample::Cell(fill, sign), word.to_owned()))
    });
    let weights = MatrixWeight::ALL.into_iter().filter_map(|(weight, words)| {
        let there = m.rows.iter().any(|r| r.weight == weight);
        let sign = weight.sign()?;
        there.then(|| (Sample::Mark(sign), words.to_owned()))
    });
    cells.chain(weights).collect()
}
