//! Columns as strands of pieces: every symbol measured, every gap known, each with the level it belongs to.

use super::ends::{End, resolve};
use super::piece::{self, Piece, block};
use super::rows::{Key, Rows};
use super::words::{SIZE, Words};
use crate::circuit::path::{Block, Column, Face, Foot, Item, Stand, Top};
use crate::text::width;
use loom::{Colour, PartKind, PinId, WireId};

/// From a wire to its label, mm.
pub(crate) const BESIDE: f64 = 1.5;
/// Free above and below a wire's label, mm.
const AIR: f64 = 1.0;

/// What leads from one piece to the next.
#[derive(Clone, Debug, PartialEq)]
pub(crate) enum Gap {
    /// A laid wire.
    Wire { name: String, colour: Colour, lines: Vec<String> },
    /// A connection inside a part.
    Inner,
}

impl Gap {
    fn wire(words: &Words, id: WireId) -> Self {
        let wire = words.loom.wire(id);
        Self::Wire { name: wire.name.clone(), colour: wire.colour.clone(), lines: words.wire(id) }
    }

    /// How long it is at least.
    fn least(&self) -> f64 {
        match self {
            Self::Wire { lines, .. } => block(lines.len()) + 2.0 * AIR,
            Self::Inner => 0.8,
        }
    }

    /// How far it reaches to the right of the axis.
    fn right(&self) -> f64 {
        match self {
            Self::Wire { lines, .. } => BESIDE + lines.iter().map(|l| width(l, SIZE)).fold(0.0, f64::max),
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
    let all = blocks.iter().enumerate().flat_map(|(b, block)| block.columns.iter().map(move |c| (b, c)));
    all.enumerate().map(|(i, (block, column))| Numbered { number: i + 1, block, column }).collect()
}

/// The strands of some columns that stand on one sheet, out of all.
pub(crate) fn strands(words: &Words, all: &[Numbered], some: &[Numbered]) -> Vec<Strand> {
    let columns: Vec<&Column> = some.iter().map(|n| n.column).collect();
    let ends = resolve(&columns);
    let owner = |pin: PinId| all.iter().find(|n| n.column.node(pin).is_some()).map_or(0, |n| n.number);
    let build = |(at, (n, (top, foot))): (usize, (&Numbered, (End, End)))| {
        let mut strand = Strand {
            number: n.number,
            block: n.block,
            top: n.column.top,
            foot: n.column.foot,
            cells: Vec::new(),
            left: 0.0,
            right: 0.0,
        };
        let mut cells = Cells { words, at, cells: Vec::new(), gap: Gap::Inner };
        cells.top(n.column.top, top, &owner);
        for item in &n.column.items {
            cells.item(item);
        }
        cells.foot(n.column, foot, &owner);
        strand.cells = cells.cells;
        for cell in &strand.cells {
            let frame = cell.piece.frame();
            strand.left = strand.left.max(-frame.left);
            strand.right = strand.right.max(frame.right).max(cell.above.right());
        }
        strand
    };
    some.iter().zip(ends).enumerate().map(build).collect()
}

/// The cells of a column under construction.
struct Cells<'a> {
    words: &'a Words<'a>,
    at: usize,
    cells: Vec<Cell>,
    gap: Gap,
}

impl Cells<'_> {
    fn put(&mut self, key: Key, piece: Piece) {
        let above = std::mem::replace(&mut self.gap, Gap::Inner);
        self.cells.push(Cell { key, piece, above });
    }

    fn free(&self) -> Key {
        Key::Free(self.at, self.cells.len())
    }

    fn top(&mut self, top: Top, end: End, owner: &dyn Fn(PinId) -> usize) {
        match top {
            Top::Rail(pin) => {
                let bus = matches!(self.words.loom.part_of(pin).kind, PartKind::Box(_));
                self.put(if bus { Key::Buses } else { Key::Feeds }, piece::on_rail(self.words, pin));
            }
            Top::Stub(pin) => self.put(Key::Stubs, piece::stub(self.words, pin)),
            Top::Branch(pin) if end == End::Meet => self.put(Key::Node(pin), piece::meet(self.words, pin)),
            Top::Branch(pin) => self.put(Key::Node(pin), piece::refer(self.words, pin, owner(pin), true)),
        }
    }

    fn item(&mut self, item: &Item) {
        match item {
            Item::Wire(id) => self.gap = Gap::wire(self.words, *id),
            Item::Node(pin) => self.put(Key::Node(*pin), piece::node(self.words, *pin)),
            Item::Part(stand) => self.put(self.key(stand), piece::part(self.words, stand)),
        }
    }

    fn key(&self, stand: &Stand) -> Key {
        match stand.face {
            Face::Coil | Face::Contact => Key::Link(stand.part),
            Face::Throw => Key::Throw(stand.part),
            Face::Load => Key::Loads,
            Face::Cells | Face::Fuse | Face::Switch | Face::Connector { .. } => self.free(),
        }
    }

    fn foot(&mut self, column: &Column, end: End, owner: &dyn Fn(PinId) -> usize) {
        let words = self.words;
        match column.foot {
            Foot::Earth(pin) if is_body(words, column, pin) => self.put(Key::Earths, piece::earth(words, pin)),
            Foot::Earth(pin) => self.put(Key::Sinks, piece::sink(words, pin)),
            Foot::Bus(pin) => self.put(Key::Buses, piece::on_rail(words, pin)),
            Foot::Throw(pin) => self.put(Key::ThrowTop(words.loom.pin(pin).part), piece::on_rail(words, pin)),
            Foot::Join(pin) if end == End::Meet => self.put(Key::Node(pin), piece::meet(words, pin)),
            Foot::Join(pin) => {
                let key = if end == End::Refer { Key::Node(pin) } else { self.free() };
                self.put(key, piece::refer(words, pin, owner(pin), false));
            }
            Foot::Open => {}
        }
    }
}

/// Whether an end is the vehicle's body: a body earth, or the battery's own.
fn is_body(words: &Words, column: &Column, pin: PinId) -> bool {
    match &words.loom.part_of(pin).kind {
        PartKind::Earth(e) => e.to == plan::EarthReturn::Body,
        _ => matches!(column.items.first(), Some(Item::Part(s)) if s.face == Face::Cells),
    }
}

/// How far apart two pieces of a column stand at least, anchor to anchor.
pub(crate) fn apart(upper: &Cell, lower: &Cell) -> f64 {
    upper.piece.frame().bottom + lower.above.least() - lower.piece.frame().top
}

/// Says of every strand what stands below what.
pub(crate) fn demand(rows: &mut Rows, strands: &[Strand]) {
    for strand in strands {
        for pair in strand.cells.windows(2) {
            rows.below(pair[0].key, pair[1].key, apart(&pair[0], &pair[1]));
        }
        for cell in &strand.cells {
            if let Key::Throw(part) = cell.key {
                rows.below(Key::ThrowTop(part), cell.key, cell.piece.pins.0);
            }
            if cell.key == Key::Sinks {
                rows.below(Key::Sinks, Key::Earths, cell.piece.frame().bottom + 2.0);
            }
        }
    }
}

/// A column between a coil and its contact must begin below the link, if it goes on below it: then it
/// leaves the level of the other stubs.
pub(crate) fn clear_links(rows: &mut Rows, strands: &mut [Strand]) {
    let stands = |s: &Strand, key: Key| s.cells.iter().any(|c| c.key == key);
    let links: Vec<Key> = strands.iter().flat_map(|s| &s.cells).map(|c| c.key).filter(|k| matches!(k, Key::Link(_))).collect();
    for link in links {
        let mine: Vec<usize> = (0..strands.len()).filter(|i| stands(&strands[*i], link)).collect();
        let [coil, contact] = mine[..] else { continue };
        for between in coil + 1..contact {
            if matches!(strands[between].foot, Foot::Throw(_)) {
                continue;
            }
            let Some(first) = strands[between].cells.first_mut() else { continue };
            if first.key == Key::Stubs {
                first.key = Key::Free(between, 0);
            }
            rows.below(link, first.key, 2.0 - first.piece.frame().top);
        }
    }
}
