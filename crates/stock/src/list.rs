//! Any table as lines of text, for the command line and the page.

use crate::Stock;

/// The tables that [`list`] knows.
pub const WHATS: [&str; 11] = [
    "wire",
    "fuses",
    "relays",
    "switches",
    "joints",
    "terminals",
    "connectors",
    "sleeves",
    "grommets",
    "insulation",
    "currents",
];

/// A table as text. The last two cells of every row are its basis and its source.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Listing {
    /// What it lists.
    pub title: String,
    /// Heads of the columns.
    pub columns: Vec<String>,
    /// Rows, each as long as `columns`.
    pub rows: Vec<Vec<String>>,
}

/// The table `what` (one of [`WHATS`]), or `None` where there is none.
pub fn list(_stock: &Stock, _what: &str) -> Option<Listing> {
    None
}
