//! `sheet`: drawings. Takes a [`loom::Loom`] with the [`study::Answers`] to it and gives sheets of SVG:
//! the circuit diagram in current-path form. With the [`study::Lists`] too, the loom board. Takes a [`study::Day`] and gives the chart of a day of use; a
//! [`study::Coordination`] and gives that of a fuse and its wire; a fault's moments and gives what happens in time;
//! what every fault does to every load and gives the matrix of it.
//!
//! Layout stands apart from drawing: what is drawn where is decided and tested before a line of SVG
//! is written. Absent from this room: files, pages, browsers, and whether any of it is good.

mod board;
mod chart;
mod circuit;
mod colour;
mod coordination;
mod dark;
mod day;
mod drawing;
mod fall;
mod fault_in_time;
mod geometry;
mod glyph;
mod label;
mod matrix;
mod route;
mod svg;
mod text;
mod title;

pub use board::{board, board_full_size};
pub use circuit::{Going, Picture, Shown, Tip, Worked, circuit, circuit_live, circuit_so_far};
pub use coordination::{CoordinationNames, coordination};
pub use dark::dark_style;
pub use day::day;
pub use fall::{FallChart, FallKind, FallRow, fall};
pub use fault_in_time::{FaultInTime, Line, Plot, fault_in_time};
pub use matrix::{Cell, FaultMatrix, MatrixRow, MatrixWeight, matrix};
pub use route::{Spots, route, route_spots};

/// What the title block says.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Title {
    /// What the work is called.
    pub title: String,
    /// The vehicle, in the owner's words.
    pub vehicle: String,
    /// Whom the drawing belongs to.
    pub owner: Option<String>,
}

/// One sheet.
#[derive(Clone, Debug, PartialEq)]
pub struct Sheet {
    /// Stem of a file name: "circuit-1".
    pub name: String,
    /// What it shows, for lists and headings.
    pub title: String,
    /// The drawing; one user unit is one millimetre.
    pub svg: String,
    /// Width, mm.
    pub width_mm: f64,
    /// Height, mm.
    pub height_mm: f64,
}
