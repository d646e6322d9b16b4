//! Rows dealt out to sheets: as many as there is room for, a heading never last, and told again on the next sheet
//! where its kind goes on.

use super::rows::Row;
use super::table::Table;

/// The rows of each sheet; a sheet has so much height for them. One at least stands on each, however tall.
pub(super) fn split<'a>(rows: Vec<Row<'a>>, table: &Table, room: f64) -> Vec<Vec<Row<'a>>> {
    let mut sheets: Vec<Vec<Row>> = vec![Vec::new()];
    let mut tall = 0.0;
    let mut kind = String::new();
    let mut rows = rows.into_iter().peekable();
    while let Some(row) = rows.next() {
        let starts = matches!(row, Row::Kind(_));
        let with_next = match rows.peek() {
            Some(next) if starts => next.height(),
            _ => 0.0,
        };
        let here = sheets.last().map_or(0, Vec::len);
        if here > 0 && tall + row.height() + with_next > room {
            let again = (!starts).then(|| Row::kind(&kind, table, true));
            tall = again.iter().map(Row::height).sum();
            sheets.push(again.into_iter().collect());
        }
        if let Row::Kind(lines) = &row {
            kind = lines.join(" ");
        }
        tall += row.height();
        if let Some(sheet) = sheets.last_mut() {
            sheet.push(row);
        }
    }
    sheets
}
