//! The cells of one column, and the numbers of the columns that meet at its pins.

use super::ends::End;
use super::piece::{self, Piece};
use super::rows::Key;
use super::strip::{Cell, Gap, Numbered};
use super::words::Words;
use crate::circuit::path::{Column, Face, Foot, Item, Stand, Top};
use loom::{PartKind, PinId};

/// Which columns meet at a pin, on this sheet and on others.
pub(crate) struct Met<'a> {
    pub all: &'a [Numbered<'a>],
    pub some: &'a [Numbered<'a>],
    pub ends: &'a [(End, End)],
}

impl Met<'_> {
    fn find(&self, test: impl Fn(&Column) -> bool) -> Option<usize> {
        self.all.iter().find(|n| test(n.column)).map(|n| n.number)
    }

    /// Where a column that begins at this pin comes from.
    fn source(&self, pin: PinId) -> usize {
        let joins = || self.find(|c| c.foot == Foot::Join(pin));
        self.find(|c| c.node(pin).is_some())
            .or_else(joins)
            .unwrap_or(0)
    }

    /// Where a column that ends at this pin goes on.
    fn goal(&self, pin: PinId) -> usize {
        let begins = || self.find(|c| c.top == Top::Branch(pin));
        self.find(|c| c.node(pin).is_some())
            .or_else(begins)
            .unwrap_or(0)
    }

    /// Where the way goes on from a stud or the battery's negative post.
    fn beyond(&self, pin: PinId) -> Option<usize> {
        let cells =
            |i: &Item| matches!(i, Item::Part(s) if s.face == Face::Cells && s.lower == pin);
        self.find(|c| c.top == Top::Stub(pin) || c.items.iter().any(cells))
    }

    /// The columns that refer to a node, the first of each run.
    fn referring(&self, pin: PinId) -> Vec<usize> {
        let refers = |n: &&Numbered| {
            let here = self.some.iter().position(|s| s.number == n.number);
            let (top, foot) = here.map_or((End::Refer, End::Refer), |i| self.ends[i]);
            let begins = n.column.top == Top::Branch(pin) && top != End::Meet;
            begins || (n.column.foot == Foot::Join(pin) && foot != End::Meet)
        };
        let numbers: Vec<usize> = self.all.iter().filter(refers).map(|n| n.number).collect();
        let first = |i: &usize| *i == 0 || numbers[*i] != numbers[*i - 1] + 1;
        (0..numbers.len())
            .filter(first)
            .map(|i| numbers[i])
            .collect()
    }
}

/// The cells of a column under construction.
pub(crate) struct Cells<'a> {
    pub words: &'a Words<'a>,
    /// Which column of the sheet this is, and of which block.
    pub at: (usize, usize),
    pub cells: Vec<Cell>,
    pub gap: Gap,
}

impl Cells<'_> {
    fn put(&mut self, key: Key, piece: Piece) {
        let above = std::mem::replace(&mut self.gap, Gap::Inner);
        self.cells.push(Cell { key, piece, above });
    }

    fn free(&self) -> Key {
        Key::Free(self.at.0, self.cells.len())
    }

    pub fn top(&mut self, top: Top, end: End, met: &Met) {
        match top {
            Top::Rail(pin) => {
                let bus = matches!(self.words.loom.part_of(pin).kind, PartKind::Box(_));
                self.put(
                    if bus { Key::Buses } else { Key::Feeds },
                    piece::on_rail(self.words, pin),
                );
            }
            Top::Stub(pin) => self.put(Key::Stubs, piece::stub(self.words, pin)),
            Top::Branch(pin) if end == End::Meet => {
                self.put(Key::Node(pin), piece::meet(self.words, pin))
            }
            Top::Branch(pin) => self.put(
                Key::Node(pin),
                piece::refer(self.words, pin, met.source(pin), true),
            ),
        }
    }

    pub fn item(&mut self, item: &Item, met: &Met) {
        match item {
            Item::Wire(id) => self.gap = Gap::wire(self.words, *id),
            Item::Node(pin) => self.put(
                Key::Node(*pin),
                piece::node(self.words, *pin, &met.referring(*pin)),
            ),
            Item::Part(stand) => {
                let mut part = piece::part(self.words, stand);
                if let Face::Cutout { earth } = stand.face {
                    piece::side_way(&mut part, &met.referring(earth));
                }
                self.put(self.key(stand), part);
            }
        }
    }

    fn key(&self, stand: &Stand) -> Key {
        match stand.face {
            Face::Coil | Face::Contact => Key::Link(stand.part),
            Face::Throw => Key::Throw(stand.part),
            Face::Cutout { earth } => Key::Node(earth),
            Face::Load => Key::Loads(self.at.1),
            Face::Cells | Face::Fuse | Face::Switch | Face::Connector { .. } => self.free(),
        }
    }

    pub fn foot(&mut self, column: &Column, end: End, met: &Met) {
        let words = self.words;
        match column.foot {
            Foot::Earth(pin) if is_body(words, column, pin) => {
                self.put(Key::Earths, piece::earth(words, pin))
            }
            Foot::Earth(pin) => self.put(Key::Sinks, piece::sink(words, pin, met.beyond(pin))),
            Foot::Bus(pin) => self.put(Key::Buses, piece::on_rail(words, pin)),
            Foot::Throw(pin) => self.put(
                Key::ThrowTop(words.loom.pin(pin).part),
                piece::on_rail(words, pin),
            ),
            Foot::Join(pin) if end == End::Meet => {
                self.put(Key::Node(pin), piece::meet(words, pin))
            }
            Foot::Join(pin) => {
                let key = if end == End::Refer {
                    Key::Node(pin)
                } else {
                    self.free()
                };
                self.put(key, piece::refer(words, pin, met.goal(pin), false));
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
