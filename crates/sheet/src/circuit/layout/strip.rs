//! Columns as strands of pieces: every symbol measured, every gap known, each with the level it belongs to.

use super::cells::{Cells, Met};
use super::ends::{End, resolve};
use super::piece::{Piece, block};
use super::rows::Key;
use super::words::{SIZE, Words};
use crate::circuit::path::{Block, Column, Foot, Top};
use crate::text::width;
use loom::{Colour, PinId, WireId};

/// From a wire to its label, mm.
pub(crate) const BESIDE: f64 = 1.5;
/// Free above and below a wire's label, mm.
const AIR: f64 = 1.1;

/// What leads from one piece to the next.
#[derive(Clone, Debug, PartialEq)]
pub(crate) enum Gap {
    /// A laid wire.
    Wire {
        name: String,
        colour: Colour,
        lines: Vec<String>,
    },
    /// A connection inside a part.
    Inner,
}

impl Gap {
    pub fn wire(words: &Words, id: WireId) -> Self {
        let wire = words.loom.wire(id);
        Self::Wire {
            name: wire.name.clone(),
            colour: wire.colour.clone(),
            lines: words.wire(id),
        }
    }

    /// How long it is at least.
    pub fn least(&self) -> f64 {
        match self {
            Self::Wire { lines, .. } => block(lines.len()) + 2.0 * AIR,
            Self::Inner => 0.8,
        }
    }

    /// How far it reaches to the right of the axis.
    fn right(&self) -> f64 {
        match self {
            Self::Wire { lines, .. } => {
                BESIDE + lines.iter().map(|l| width(l, SIZE)).fold(0.0, f64::max)
            }
            Self::Inner => 0.0,
        }
    }
}

/// A piece in its column, with what leads down to it.
#[derive(Clone, Debug)]
pub(crate) struct Cell {
    pub key: Key,
    pub piece: Piece,
    pub above: Gap,
}

/// A column, measured.
#[derive(Clone, Debug)]
pub(crate) struct Strand {
    /// Its number on the sheets.
    pub number: usize,
    /// The block it belongs to.
    pub block: usize,
    pub top: Top,
    pub foot: Foot,
    pub cells: Vec<Cell>,
    /// Whether it begins with a reference.
    pub refers: bool,
    /// How far it reaches from its axis.
    pub left: f64,
    pub right: f64,
}

/// A column with its number and its block.
#[derive(Clone, Copy)]
pub(crate) struct Numbered<'a> {
    pub number: usize,
    pub block: usize,
    pub column: &'a Column,
}

impl Numbered<'_> {
    /// Whether it begins or ends on this rail.
    pub fn is_on(&self, rail: PinId) -> bool {
        self.column.top == Top::Rail(rail) || self.column.foot == Foot::Bus(rail)
    }
}

/// Numbers all columns in one run.
pub(crate) fn numbered(blocks: &[Block]) -> Vec<Numbered<'_>> {
    let all = blocks
        .iter()
        .enumerate()
        .flat_map(|(b, block)| block.columns.iter().map(move |c| (b, c)));
    all.enumerate()
        .map(|(i, (block, column))| Numbered {
            number: i + 1,
            block,
            column,
        })
        .collect()
}

/// The strands of some columns that stand on one sheet, out of all.
pub(crate) fn strands(words: &Words, all: &[Numbered], some: &[Numbered]) -> Vec<Strand> {
    let columns: Vec<&Column> = some.iter().map(|n| n.column).collect();
    let ends = resolve(&columns);
    let met = Met {
        all,
        some,
        ends: &ends,
    };
    let build = |(at, (n, (top, foot))): (usize, (&Numbered, (End, End)))| {
        let mut strand = Strand {
            number: n.number,
            block: n.block,
            top: n.column.top,
            foot: n.column.foot,
            cells: Vec::new(),
            refers: top == End::Refer,
            left: 0.0,
            right: 0.0,
        };
        let mut cells = Cells {
            words,
            at: (at, n.block),
            cells: Vec::new(),
            gap: Gap::Inner,
        };
        cells.top(n.column.top, top, &met);
        for item in &n.column.items {
            cells.item(item, &met);
        }
        cells.foot(n.column, foot, &met);
        strand.cells = cells.cells;
        for cell in &strand.cells {
            let frame = cell.piece.frame();
            strand.left = strand.left.max(-frame.left);
            strand.right = strand.right.max(frame.right).max(cell.above.right());
        }
        strand
    };
    some.iter()
        .zip(ends.iter().copied())
        .enumerate()
        .map(build)
        .collect()
}
