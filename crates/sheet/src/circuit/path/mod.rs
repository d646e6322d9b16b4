//! From a loom to columns. Takes a [`loom::Loom`], gives blocks of columns in the order in which they stand on
//! the paper: each column one way of the current from the top down, walked from source to earth.
//!
//! Nothing here knows a size or a place on the sheet.

mod fold;
mod order;
mod walk;

pub(crate) use fold::fold;
pub(crate) use order::blocks;

use loom::{PartId, PinId, WireId};

/// Where a column begins.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Top {
    /// On the rail of a feed or a box, whose pin this is.
    Rail(PinId),
    /// On a short piece of rail of its own: a signal, a tap, a stud.
    Stub(PinId),
    /// At a pin in another column.
    Branch(PinId),
}

/// Where a column ends.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Foot {
    /// At an earth point or the battery's negative post.
    Earth(PinId),
    /// At a splice in another column.
    Join(PinId),
    /// At the rail of a box.
    Bus(PinId),
    /// At the second input of the three-position switch in another column.
    Throw(PinId),
    /// Nowhere: its last pin is left open.
    Open,
}

/// The side of a part that stands in a column.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Face {
    /// A battery's cells.
    Cells,
    /// A fuse.
    Fuse,
    /// A relay's contact.
    Contact,
    /// A relay's coil.
    Coil,
    /// A switch with two positions.
    Switch,
    /// A switch with three.
    Throw,
    /// A cut-out; its thin earth wire leaves by this pin for a column of its own.
    Cutout {
        /// Its 31.
        earth: PinId,
    },
    /// A load.
    Load,
    /// A pair of connector halves; the socket is the upper or the lower one.
    Connector {
        /// Whether the upper half carries the socket.
        socket_above: bool,
    },
}

/// A part as it stands in a column.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) struct Stand {
    pub part: PartId,
    pub face: Face,
    pub upper: PinId,
    pub lower: PinId,
}

/// What stands in a column.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Item {
    /// A laid wire.
    Wire(WireId),
    /// A pin at which columns meet: a splice, or a terminal with several wires.
    Node(PinId),
    /// A part.
    Part(Stand),
}

impl Item {
    /// The pin at which other columns meet this one here.
    pub fn meets_at(&self) -> Option<PinId> {
        match self {
            Item::Node(pin) => Some(*pin),
            Item::Part(Stand {
                face: Face::Cutout { earth },
                ..
            }) => Some(*earth),
            _ => None,
        }
    }
}

/// One way of the current, from the top down.
#[derive(Clone, Debug)]
pub(crate) struct Column {
    pub top: Top,
    pub items: Vec<Item>,
    pub foot: Foot,
}

impl Column {
    fn new(top: Top) -> Self {
        Self {
            top,
            items: Vec::new(),
            foot: Foot::Open,
        }
    }

    /// Whether a part shows this face here.
    pub fn shows(&self, part: PartId, face: Face) -> bool {
        self.items
            .iter()
            .any(|i| matches!(i, Item::Part(s) if s.part == part && s.face == face))
    }

    /// Where in the column this pin is a meeting point.
    pub fn node(&self, pin: PinId) -> Option<usize> {
        self.items.iter().position(|i| i.meets_at() == Some(pin))
    }
}

/// Columns that stay together: a circuit, or a piece of the supply side.
#[derive(Clone, Debug)]
pub(crate) struct Block {
    /// What stands above it.
    pub heading: String,
    /// Its columns, from the left.
    pub columns: Vec<Column>,
    /// Whether it stays on one sheet with the block after it.
    pub holds_next: bool,
}
