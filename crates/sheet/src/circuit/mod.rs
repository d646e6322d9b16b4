//! The circuit diagram in current-path form: rails at the top, the body at the bottom, every way of the
//! current straight down between them. Takes loom, answers and stock, gives sheets.

#[cfg(test)]
mod check;
mod draw;
mod layout;
mod path;
mod symbol;

#[cfg(test)]
mod tests;

use crate::{Sheet, Title};
use loom::Loom;
use stock::Stock;
use study::Answers;

/// The circuit diagram: as many sheets as it takes, in order.
pub fn circuit(loom: &Loom, answers: &Answers, stock: &Stock, title: &Title) -> Vec<Sheet> {
    let blocks = path::blocks(loom);
    let words = layout::Words::new(loom, answers, stock);
    let sheets = layout::layouts(&blocks, &words, title);
    sheets.iter().map(|s| draw::sheet(s, title)).collect()
}
