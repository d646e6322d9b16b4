//! The heights of one sheet: settles the levels of its strands between the rails at the top and the body
//! at the bottom, and says whether there was room.

use super::demand::{apart, clear_links, demand};
use super::rows::{Key, Rows};
use super::strip::{Gap, Strand};
use std::collections::BTreeSet;

/// How much of the height that is left over goes above the loads.
const LOADS_SHARE: f64 = 0.4;
/// Below a rail, and between an end and the body, at least, mm.
const CLEAR: f64 = 2.0;
/// From the body's line down to the lowest stroke below it, mm.
const BODY: f64 = 4.0;

/// Where the rails may be and where everything ends, mm.
pub(crate) struct Limits {
    /// The rails of feeds, or lower.
    pub feeds: f64,
    /// From them to the rails of boxes at least.
    pub buses: f64,
    /// Nothing lower than this.
    pub bottom: f64,
}

/// Settled levels, and whether everything is above the bottom.
pub(crate) fn settle(strands: &mut [Strand], limits: &Limits) -> (Rows, bool) {
    let mut rows = Rows::default();
    rows.least(Key::Feeds, limits.feeds);
    rows.below(Key::Feeds, Key::Buses, limits.buses);
    tops(&mut rows, strands);
    clear_links(&mut rows, strands);
    demand(&mut rows, strands);
    rows.settle();
    level_loads(&mut rows, strands, limits.bottom);
    let slack = limits.bottom - lowest(&rows, strands);
    if slack > 0.0 {
        let grounded = strands
            .iter()
            .flat_map(|s| &s.cells)
            .any(|c| c.key == Key::Earths);
        let body = if grounded {
            rows.at(Key::Earths) + slack
        } else {
            limits.bottom - BODY
        };
        rows.least(Key::Earths, body);
        for key in loads(strands) {
            rows.least(key, rows.at(key) + slack * LOADS_SHARE);
        }
        rows.settle();
    }
    hang(&mut rows, strands);
    (rows, slack >= -1e-6)
}

/// Whatever begins below the rails stands below those that pass above it.
fn tops(rows: &mut Rows, strands: &[Strand]) {
    let boxes = strands
        .iter()
        .flat_map(|s| &s.cells)
        .any(|c| c.key == Key::Buses);
    let above = if boxes { Key::Buses } else { Key::Feeds };
    let firsts = strands.iter().filter_map(|s| s.cells.first());
    for cell in firsts.filter(|c| !matches!(c.key, Key::Feeds | Key::Buses)) {
        rows.below(above, cell.key, CLEAR - cell.piece.frame().top);
    }
}

/// The levels of the loads, one a block.
fn loads(strands: &[Strand]) -> BTreeSet<Key> {
    let keys = strands.iter().flat_map(|s| &s.cells).map(|c| c.key);
    keys.filter(|k| matches!(k, Key::Loads(_))).collect()
}

/// Brings the loads of all blocks to one level, if there is room for it.
fn level_loads(rows: &mut Rows, strands: &[Strand], bottom: f64) {
    let keys = loads(strands);
    let deepest = keys.iter().map(|k| rows.at(*k)).fold(0.0, f64::max);
    let mut tried = rows.clone();
    for key in keys {
        tried.least(key, deepest);
    }
    tried.settle();
    if lowest(&tried, strands) <= bottom {
        *rows = tried;
    }
}

/// How far down anything reaches.
fn lowest(rows: &Rows, strands: &[Strand]) -> f64 {
    let cells = strands.iter().flat_map(|s| &s.cells);
    let reach = cells.map(|c| rows.at(c.key) + c.piece.frame().bottom);
    reach.fold(rows.at(Key::Earths) + BODY, f64::max)
}

/// Lowers what hangs on something to just above it: the wire before it takes up the slack.
fn hang(rows: &mut Rows, strands: &[Strand]) {
    let cells = || strands.iter().flat_map(|s| &s.cells);
    let sinks = cells().filter(|c| c.key == Key::Sinks);
    if let Some(deep) = sinks
        .map(|c| c.piece.frame().bottom + CLEAR)
        .reduce(f64::max)
    {
        rows.least(Key::Sinks, rows.at(Key::Earths) - deep);
    }
    for cell in cells() {
        if let Key::Throw(part) = cell.key {
            rows.least(Key::ThrowTop(part), rows.at(cell.key) - cell.piece.pins.0);
        }
    }
    for strand in strands {
        for (at, pair) in strand.cells.windows(2).enumerate().rev() {
            // A reference at the head of a column hangs too: nothing else meets it.
            let loose = matches!(pair[0].key, Key::Free(..)) || (at == 0 && strand.refers);
            if loose && pair[1].above == Gap::Inner {
                rows.least(
                    pair[0].key,
                    rows.at(pair[1].key) - apart(&pair[0], &pair[1]),
                );
            }
        }
    }
}
