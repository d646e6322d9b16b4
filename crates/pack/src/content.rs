//! What is told, free of how it looks: sections of text, lists, tables, findings and drawings.

use finding::Finding;
use sheet::Sheet;
use std::borrow::Cow;

/// Which side a column's cells stand on.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Align {
    /// Words.
    Left,
    /// Figures.
    Right,
}

/// A column of a table. The title says the unit.
#[derive(Clone, Debug)]
pub struct Column {
    /// Its title.
    pub title: Cow<'static, str>,
    /// Its side.
    pub align: Align,
}

/// A table.
#[derive(Clone, Debug)]
pub struct Table {
    /// Columns.
    pub columns: Vec<Column>,
    /// Rows of cells, as many as columns.
    pub rows: Vec<Vec<String>>,
}

/// A piece of a section.
#[derive(Clone, Debug)]
pub enum Block {
    /// A paragraph.
    Text(String),
    /// A list of short sentences.
    List(Vec<String>),
    /// A table.
    Table(Table),
    /// Findings, the heaviest first.
    Findings(Vec<Finding>),
    /// A drawing.
    Drawing(Sheet),
}

/// A section.
#[derive(Clone, Debug)]
pub struct Section {
    /// Stable short name: "wires".
    pub id: &'static str,
    /// Its heading.
    pub title: String,
    /// What it holds.
    pub blocks: Vec<Block>,
}

/// A document.
#[derive(Clone, Debug)]
pub struct Content {
    /// What the work is called.
    pub title: String,
    /// The vehicle.
    pub vehicle: String,
    /// Whom it belongs to.
    pub owner: Option<String>,
    /// Its sections in order.
    pub sections: Vec<Section>,
}

impl Section {
    /// A section of one block.
    pub(crate) fn of(id: &'static str, title: &str, block: Block) -> Self {
        Self {
            id,
            title: title.to_owned(),
            blocks: vec![block],
        }
    }
}
