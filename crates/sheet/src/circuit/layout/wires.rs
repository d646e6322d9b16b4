//! Everything that runs between pieces: wires with their labels, the level lines of nodes, the links of
//! relays. Takes strands with places, adds lines and labels to the sheet.

use super::piece::block;
use super::rows::{Key, Rows};
use super::strip::{BESIDE, Cell, Gap, Strand};
use super::words::SIZE;
use super::{Align, Ink, Label, Layout, Line, Symbol};
use crate::circuit::symbol::{CUTOUT_SIDE, MAKE_BLADE, SECOND_INPUT, Shape};
use crate::geometry::{Point, at};
use crate::text::{ASCENT, LEADING};
use std::collections::BTreeMap;

/// A strand on its axis.
pub(crate) struct Placed<'a> {
    pub strand: &'a Strand,
    pub x: f64,
}

/// Adds what the strands hold.
pub(crate) fn emit(sheet: &mut Layout, rows: &Rows, placed: &[Placed]) {
    for p in placed {
        for pair in p.strand.cells.windows(2) {
            gap(sheet, rows, placed, (p.x, &pair[0], &pair[1]));
        }
        for cell in &p.strand.cells {
            piece(sheet, cell, at(p.x, rows.at(cell.key)));
        }
    }
    nodes(sheet, rows, placed);
    links(sheet, rows, placed);
}

fn piece(sheet: &mut Layout, cell: &Cell, anchor: Point) {
    let piece = &cell.piece;
    if let Some(shape) = &piece.shape {
        sheet.symbols.push(Symbol {
            name: piece.name.clone(),
            shape: shape.clone(),
            at: anchor,
        });
    }
    sheet
        .labels
        .extend(piece.labels.iter().map(|l| l.moved(anchor).of(&piece.name)));
}

/// The line from one piece to the next, and its label.
fn gap(sheet: &mut Layout, rows: &Rows, placed: &[Placed], (x, upper, lower): (f64, &Cell, &Cell)) {
    let (a, b) = (rows.at(upper.key), rows.at(lower.key));
    let mut points = vec![at(x, a + upper.piece.pins.1), at(x, b - lower.piece.pins.0)];
    if let Some(from) = leaves(placed, upper.key, x) {
        points.insert(0, at(from, a));
    }
    if let Key::ThrowTop(part) = lower.key {
        let other = placed
            .iter()
            .find(|p| p.strand.cells.iter().any(|c| c.key == Key::Throw(part)));
        points.extend(other.map(|p| at(p.x + SECOND_INPUT, b)));
    }
    let (name, ink) = match &lower.above {
        Gap::Inner => (lower.piece.name.clone(), Ink::Inner),
        Gap::Wire {
            name,
            colour,
            lines,
        } => {
            let (top, bottom) = (a + upper.piece.frame().bottom, b + lower.piece.frame().top);
            let first = (top + bottom - block(lines.len())) / 2.0 + ASCENT * SIZE;
            for (i, line) in lines.iter().enumerate() {
                let place = at(x + BESIDE, first + i as f64 * LEADING * SIZE);
                sheet
                    .labels
                    .push(Label::new(line.clone(), SIZE, place, Align::Start).of(name));
            }
            (name.clone(), Ink::Wire(colour.clone()))
        }
    };
    if points[0] != points[1] {
        sheet.lines.push(Line { name, ink, points });
    }
}

/// Where each level is used.
fn stands<'a>(placed: &'a [Placed]) -> BTreeMap<Key, Vec<(f64, &'a Cell)>> {
    let mut out: BTreeMap<Key, Vec<(f64, &Cell)>> = BTreeMap::new();
    for p in placed {
        for cell in &p.strand.cells {
            out.entry(cell.key).or_default().push((p.x, cell));
        }
    }
    out
}

/// The level line through everything that meets at a pin.
fn nodes(sheet: &mut Layout, rows: &Rows, placed: &[Placed]) {
    for (key, cells) in stands(placed) {
        let (Key::Node(_), [(x, cell), rest @ ..]) = (key, &cells[..]) else {
            continue;
        };
        let cutout = cell.piece.shape == Some(Shape::Cutout);
        let first = if cutout { x + CUTOUT_SIDE } else { *x };
        let last = match rest.last() {
            Some((last, _)) => *last,
            None if cutout => x + cell.piece.reach_of_numbers(),
            None => continue,
        };
        let bends = cutout && rest.len() == 1 && leaves(placed, key, last).is_some();
        if first >= last || bends {
            continue;
        }
        let y = rows.at(key);
        let points = vec![at(first, y), at(last, y)];
        sheet.lines.push(Line {
            name: cell.piece.name.clone(),
            ink: Ink::Inner,
            points,
        });
    }
}

/// Where the only wire that leaves a cut-out sideways begins, if it bends down on this axis, at this level.
fn leaves(placed: &[Placed], key: Key, x: f64) -> Option<f64> {
    let each = placed.iter().flat_map(|p| {
        let here = p.strand.cells.iter().enumerate();
        here.filter(|(_, c)| c.key == key)
            .map(move |(i, c)| (p, i, c))
    });
    match &each.collect::<Vec<_>>()[..] {
        [(owner, _, cell), (column, 0, _)]
            if cell.piece.shape == Some(Shape::Cutout) && column.x == x =>
        {
            let below = &column.strand.cells.get(1)?.above;
            matches!(below, Gap::Wire { .. }).then_some(owner.x + CUTOUT_SIDE)
        }
        _ => None,
    }
}

/// The link from a coil to its contact.
fn links(sheet: &mut Layout, rows: &Rows, placed: &[Placed]) {
    for (key, cells) in stands(placed) {
        let (Key::Link(_), [(coil, cell), (contact, other)]) = (key, &cells[..]) else {
            continue;
        };
        let blade = if other.piece.shape == Some(Shape::MakeContact) {
            MAKE_BLADE
        } else {
            -0.3
        };
        let y = rows.at(key);
        let points = vec![at(coil + 5.0, y), at(contact + blade, y)];
        sheet.lines.push(Line {
            name: cell.piece.name.clone(),
            ink: Ink::Link,
            points,
        });
    }
}
