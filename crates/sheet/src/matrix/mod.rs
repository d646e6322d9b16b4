//! The matrix of faults: what fails, row by row, and what it does to each load, column by column, with what comes of
//! it at the end of the row. Takes the rows as they are told, gives as many sheets as they fill.

mod compose;
mod rows;
mod split;
mod table;
mod told;

#[cfg(test)]
mod tests;

use crate::chart::{Fill, Ink, Sign};
use crate::{Sheet, Title};

/// What fails and what it does to each load.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct FaultMatrix {
    /// The loads: "M2 work lamps".
    pub columns: Vec<String>,
    /// What fails; rows of one kind come together.
    pub rows: Vec<MatrixRow>,
}

/// One thing that fails.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct MatrixRow {
    /// The heading above the rows of its kind: "a wire chafed through".
    pub kind: String,
    /// Where: "W1.3, far end".
    pub at: String,
    /// What comes of it, in a word or a few: "fuse opens".
    pub outcome: String,
    /// How heavy that is.
    pub weight: MatrixWeight,
    /// What it does to each load, in the order of the columns; one that is missing is none.
    pub cells: Vec<Cell>,
}

/// How heavy a row is.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum MatrixWeight {
    /// Do not build or use this.
    Stop,
    /// It works and will give trouble.
    Mend,
    /// Worth knowing.
    Note,
    /// As it is to be.
    #[default]
    None,
}

/// What a fault does to a load.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Cell {
    /// Nothing.
    #[default]
    None,
    /// It stays off though it is asked for.
    Lost,
    /// It is on though nobody asks for it.
    Unasked,
    /// It gets a voltage that harms it.
    Harmed,
}

/// The sheets of a matrix; one without rows is one sheet.
pub fn matrix(m: &FaultMatrix, title: &Title) -> Vec<Sheet> {
    let charts = compose::charts(m, title);
    let of = charts.len();
    let sheet = |(i, chart): (usize, &crate::chart::Chart)| {
        let n = i + 1;
        let heading = format!("{}: what fails, sheet {n} of {of}", title.title);
        chart.sheet(&format!("matrix-{n}"), heading.clone(), &heading)
    };
    charts.iter().enumerate().map(sheet).collect()
}

/// What the sheets show.
const SHOWS: &str = "What fails, and what it does to each load";

/// Behind the heading of a kind.
const KIND: Fill = Fill::tint("#e8ebee").tag();
/// Between two columns, and after every fifth.
const COLUMN: Ink = Ink::rule("#b4b9c0", 0.12);
const FIFTH: Ink = Ink::rule("#555b63", 0.25);

impl Cell {
    /// What can be done to a load, with the words of the key.
    const ALL: [(Self, &str); 3] = [
        (Self::Lost, "lost"),
        (Self::Unasked, "on, not asked for"),
        (Self::Harmed, "harmed"),
    ];

    /// Tint and mark: each lighter or darker than the others, each of its own shape.
    fn look(self) -> Option<(Fill, Sign)> {
        match self {
            Self::None => None,
            Self::Lost => Some((Fill::tint("#dfe6ee"), Sign::Ring)),
            Self::Unasked => Some((Fill::tint("#f2cf8d"), Sign::Disc)),
            Self::Harmed => Some((Fill::tint("#e39a8a"), Sign::Cross)),
        }
    }
}

impl MatrixWeight {
    /// Those that have a mark, with the words of the key.
    const ALL: [(Self, &str); 3] = [
        (Self::Stop, "stop: do not build or use this"),
        (Self::Mend, "mend: works and will give trouble"),
        (Self::Note, "note: worth knowing"),
    ];

    /// The fuller, the heavier.
    fn sign(self) -> Option<Sign> {
        match self {
            Self::Stop => Some(Sign::FullSquare),
            Self::Mend => Some(Sign::HalfSquare),
            Self::Note => Some(Sign::Square),
            Self::None => None,
        }
    }
}
