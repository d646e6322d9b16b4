//! A sheet in words, for screen readers: each row with what it does to which loads.

use super::rows::Row;
use super::{Cell, FaultMatrix, MatrixRow};

/// The rows as sentences.
pub(super) fn told(m: &FaultMatrix, rows: &[Row]) -> String {
    let faults = rows.iter().filter_map(|r| match r {
        Row::Kind(_) => None,
        Row::Fault { row, .. } => Some(fault(m, row)),
    });
    faults.collect::<Vec<String>>().join(" ")
}

fn fault(m: &FaultMatrix, row: &MatrixRow) -> String {
    let loads = |cell: Cell| -> Vec<&str> {
        let all = m.columns.iter().zip(&row.cells);
        all.filter(|(_, c)| **c == cell)
            .map(|(name, _)| name.as_str())
            .collect()
    };
    let done = Cell::ALL.map(|(cell, word)| (word, loads(cell)));
    let done = done.iter().filter(|(_, loads)| !loads.is_empty());
    let done: Vec<String> = done
        .map(|(word, loads)| format!("; {word}: {}", loads.join(", ")))
        .collect();
    format!(
        "{}, {}: {}{}.",
        row.kind,
        row.at,
        row.outcome,
        done.concat()
    )
}
