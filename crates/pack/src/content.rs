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
    /// A drawing, on paper of its own size.
    Drawing(Sheet),
    /// A drawing among the words, as wide as they are at most.
    Picture(Sheet),
    /// A heading within the section.
    Heading(String),
    /// Short headings, each with a few lines.
    Terms(Vec<(&'static str, Vec<String>)>),
    /// One side of a card, A6.
    Card(Vec<Block>),
    /// Labels to cut out, each as often as it is wanted.
    Labels(Vec<String>),
    /// A new page.
    Break,
    /// Blocks that stay on one page.
    Together(Vec<Block>),
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
    /// Of a document of many parts, what its cover says of when: a date, or where one is to be written.
    pub date: Option<String>,
    /// What it is printed on.
    pub paper: Paper,
}

/// Paper in a printer, upright.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Paper {
    /// ISO 216 A4.
    #[default]
    A4,
    /// ANSI/ASME Y14.1 A.
    Letter,
}

impl Paper {
    /// Wide and tall, mm.
    pub fn size(self) -> (f64, f64) {
        match self {
            Self::A4 => (210.0, 297.0),
            Self::Letter => (215.9, 279.4),
        }
    }

    /// As the typesetter calls it.
    #[cfg(feature = "pdf")]
    pub(crate) fn name(self) -> &'static str {
        match self {
            Self::A4 => "a4",
            Self::Letter => "us-letter",
        }
    }
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
