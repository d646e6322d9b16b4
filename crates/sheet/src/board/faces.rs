//! What a person sees who holds a connector half with the wires towards them: each way with its number, its wire, its colour.

use crate::drawing::{Drawing, INK};
use crate::geometry::{Frame, Point, at};
use crate::label::{Align, Label};
use crate::text::{ASCENT, LEADING, SIZE, width, wrap};
use loom::{Loom, WireId};
use stock::Stock;
use study::Plug;

/// A way is drawn this wide and tall, mm.
const WAY: (f64, f64) = (23.0, 15.0);
/// Ways in a row at most: two such halves go on A3.
const MOST: usize = 8;
/// Free inside a way, mm.
const INSIDE: f64 = 1.5;
/// Between the halves of one connector, mm.
const BETWEEN: f64 = 5.0;
/// A cell's wire, mm.
const WIRE: f64 = 1.5;

/// A connector's two halves side by side.
#[derive(Clone, Debug)]
pub(super) struct Face {
    /// From the top.
    heading: Vec<String>,
    rows: usize,
    /// Ways in a row.
    columns: usize,
    /// By half: its words, and by way what is in it.
    halves: [(&'static str, Vec<Cell>); 2],
}

#[derive(Clone, Debug)]
enum Cell {
    Wires(Vec<WireId>),
    Said(String),
}

impl Face {
    pub fn new((loom, stock): (&Loom, &Stock), plug: &Plug) -> Self {
        let part = loom.part(plug.part);
        let ways = study::ways(loom, plug);
        let (class, sealed, one_row) = match &plug.class {
            Ok((class, _)) => {
                let class = &stock.connectors[*class];
                (class.name.clone(), class.sealed, class.one_row as usize)
            }
            Err(what) => (format!("not in stock: {what}"), false, ways.len()),
        };
        let rows = if ways.len() > one_row.max(1) { 2 } else { 1 };
        let rows = ways.len().div_ceil(MOST).max(rows);
        let empty = if sealed { "blank" } else { "empty" };
        let of = |wires: &[WireId], own: Option<loom::PartId>| match (wires, own) {
            ([], Some(part)) => Cell::Said(format!("{} lead", loom.part(part).name)),
            ([], None) => Cell::Said(empty.to_owned()),
            (wires, _) => Cell::Wires(wires.to_vec()),
        };
        let half = |live: bool| {
            let each = ways.iter().map(|way| {
                let (mine, others) = if live {
                    (&way.live, &way.far)
                } else {
                    (&way.far, &way.live)
                };
                let own = way.own.filter(|_| mine.is_empty() && !others.is_empty());
                of(mine, own)
            });
            each.collect::<Vec<Cell>>()
        };
        let columns = ways.len().div_ceil(rows).max(1);
        let mut face = Self {
            heading: Vec::new(),
            rows,
            columns,
            halves: [
                ("source half: sockets, may be live", half(true)),
                ("far half: pins", half(false)),
            ],
        };
        let heading = format!("{} {}: {class}", part.name, part.label);
        face.heading = wrap(&heading, SIZE, face.width());
        face
    }

    fn half_wide(&self) -> f64 {
        let words = self.halves.iter().map(|(w, _)| width(w, SIZE));
        let words = words.fold(0.0, f64::max);
        (self.columns as f64 * WAY.0).max(words)
    }

    pub fn width(&self) -> f64 {
        2.0 * self.half_wide() + BETWEEN
    }

    pub fn height(&self) -> f64 {
        (self.heading.len() + 1) as f64 * SIZE * LEADING + self.rows as f64 * WAY.1 + SIZE
    }

    pub fn draw(&self, loom: &Loom, corner: Point, to: &mut Drawing) {
        let mut y = corner.y + SIZE * ASCENT;
        for line in &self.heading {
            to.words(Label::new(
                line.clone(),
                SIZE,
                at(corner.x, y),
                Align::Start,
            ));
            y += SIZE * LEADING;
        }
        let top = y + SIZE * (LEADING - ASCENT);
        for (i, (words, cells)) in self.halves.iter().enumerate() {
            let left = corner.x + i as f64 * (self.half_wide() + BETWEEN);
            let place = at(left, y);
            to.words(Label::new((*words).to_owned(), SIZE, place, Align::Start));
            for (n, cell) in cells.iter().enumerate() {
                let (row, column) = (n / self.columns, n % self.columns);
                // Turned round its upright middle, the other half has its first way on the other side.
                let column = if i == 0 {
                    column
                } else {
                    self.columns - 1 - column
                };
                let x = left + column as f64 * WAY.0;
                let y = top + row as f64 * WAY.1;
                draw(loom, (n + 1, cell), at(x, y), to);
            }
        }
    }
}

fn draw(loom: &Loom, (number, cell): (usize, &Cell), corner: Point, to: &mut Drawing) {
    let frame = Frame::around(corner, at(corner.x + WAY.0, corner.y + WAY.1));
    to.frame(frame, "white", INK);
    let most = WAY.0 - 2.0 * INSIDE;
    let mut lines: Vec<String> = match cell {
        Cell::Said(said) => wrap(&format!("{number}  {said}"), SIZE, most),
        Cell::Wires(wires) => {
            let names: Vec<&str> = wires.iter().map(|w| loom.wire(*w).name.as_str()).collect();
            wrap(&format!("{number}  {}", names.join(" ")), SIZE, most)
        }
    };
    if let Cell::Wires(wires) = cell {
        let first = loom.wire(wires[0]);
        lines.push(first.colour.to_string());
        let y = frame.bottom - INSIDE;
        let wire = [at(corner.x + INSIDE, y), at(frame.right - INSIDE, y)];
        to.wire(&wire, &first.colour, WIRE);
    }
    let mut y = corner.y + INSIDE / 2.0 + SIZE * ASCENT;
    for line in lines {
        to.words(Label::new(
            line,
            SIZE,
            at(corner.x + INSIDE, y),
            Align::Start,
        ));
        y += SIZE * LEADING;
    }
}
