//! A piece of a column: a symbol with the words around it, measured from its anchor. How much room it takes
//! follows from what is in it, so nothing that is put into a piece can be forgotten.

use super::words::{SIZE, Words};
use super::{Align, BOX_ROOM, Label};
use crate::circuit::path::{Face, Stand};
use crate::circuit::symbol::{CUTOUT_SIDE, Shape};
use crate::geometry::{Frame, Point, at};
use crate::text::{ASCENT, DESCENT, LEADING, width};
use loom::{PartKind, PinId, PlaceId};

/// From a line or a symbol to the words beside it, mm.
const NEAR: f64 = 1.2;

/// A symbol with its words, around its anchor.
#[derive(Clone, Debug)]
pub(crate) struct Piece {
    /// The part's name, or a pin's.
    pub name: String,
    /// Its symbol.
    pub shape: Option<Shape>,
    /// From the anchor up and down to where wires end.
    pub pins: (f64, f64),
    /// Its words, placed from the anchor.
    pub labels: Vec<Label>,
    /// Where it is, if it stands for a part and not for an end.
    pub place: Option<PlaceId>,
}

impl Piece {
    fn new(name: String, shape: Option<Shape>, pins: (f64, f64)) -> Self {
        Self {
            name,
            shape,
            pins,
            labels: Vec::new(),
            place: None,
        }
    }

    /// The box that it takes, around the anchor.
    pub fn frame(&self) -> Frame {
        let origin = at(0.0, 0.0);
        let pins = Frame::around(at(0.0, -self.pins.0), at(0.0, self.pins.1));
        let own = self.shape.iter().map(|s| s.frame(origin));
        own.chain(self.labels.iter().map(Label::frame))
            .fold(pins, |a, b| Frame {
                left: a.left.min(b.left),
                top: a.top.min(b.top),
                right: a.right.max(b.right),
                bottom: a.bottom.max(b.bottom),
            })
    }

    /// How far its boxed numbers reach to the right.
    pub fn reach_of_numbers(&self) -> f64 {
        let numbers = self.labels.iter().filter(|l| l.boxed);
        numbers.map(|l| l.frame().right).fold(0.0, f64::max)
    }

    /// Lines of words to the right, the first with its top at `top`.
    fn words(&mut self, x: f64, top: f64, lines: &[String]) {
        for (i, line) in lines.iter().enumerate() {
            let y = top + ASCENT * SIZE + i as f64 * LEADING * SIZE;
            self.labels
                .push(Label::new(line.clone(), SIZE, at(x, y), Align::Start));
        }
    }

    /// A boxed number, from this point of its baseline.
    fn number(&mut self, text: String, place: Point) {
        let label = Label::new(text, SIZE, place, Align::Start);
        self.labels.push(Label {
            boxed: true,
            ..label
        });
    }

    /// Boxed numbers to the right of a word that ends at `x`.
    fn numbers(&mut self, x: f64, top: f64, numbers: &[usize]) {
        let mut x = x + BOX_ROOM + 1.0;
        for number in numbers {
            let text = number.to_string();
            let wide = width(&text, SIZE);
            self.number(text, at(x, top + ASCENT * SIZE));
            x += wide + 2.0 * BOX_ROOM + 1.0;
        }
    }

    /// Lines of words to the right of the symbol, centred on the anchor.
    fn beside(&mut self, x: f64, lines: &[String]) {
        self.words(x, -block(lines.len()) / 2.0, lines);
    }
}

/// How tall a block of lines is.
pub(crate) fn block(lines: usize) -> f64 {
    (lines.max(1) as f64 - 1.0) * LEADING * SIZE + (ASCENT + DESCENT) * SIZE
}

/// A part.
pub(crate) fn part(words: &Words, stand: &Stand) -> Piece {
    let shape = words.shape(stand);
    let e = shape.extent();
    let part = words.loom.part(stand.part);
    let pins = (e.up, e.down);
    let mut piece = Piece::new(part.name.clone(), Some(shape.clone()), pins);
    // A fuse in a box's way is in the box, which its rail stands for.
    let boxed = matches!(&part.kind, PartKind::Fuse(f) if f.way.is_some());
    piece.place = (!boxed).then_some(part.place);
    let lines = words.stand(stand);
    if stand.face == Face::Coil {
        // The link to the contact leaves above them.
        piece.words(e.right + NEAR, 0.6, &lines);
    } else if shape == Shape::Cutout {
        // Its earth wire leaves level with the anchor, under the words.
        piece.words(e.right + NEAR, -block(lines.len()) - 1.2, &lines);
    } else if shape == Shape::ChangeOver {
        // Its open 87 stands between the blade and the words.
        piece.beside(e.right + NEAR + 5.0, &lines);
        piece.words(e.right + 0.6, 3.2, &["87".to_owned()]);
    } else {
        piece.beside(e.right + NEAR, &lines);
    }
    let [upper, lower] = words.marks(stand);
    let mark = |text: String, y: f64, x: f64| Label::new(text, SIZE, at(x, y), Align::End);
    // At the left of its middle contact it would be taken for the name of the position that stands there.
    let right = |label: Label| match stand.face {
        Face::Throw => Label {
            at: at(NEAR, label.at.y),
            align: Align::Start,
            ..label
        },
        _ => label,
    };
    piece
        .labels
        .extend(upper.map(|t| right(mark(t, -e.up + ASCENT * SIZE, -NEAR))));
    piece
        .labels
        .extend(lower.map(|t| mark(t, e.down - DESCENT * SIZE, -NEAR)));
    if stand.face == Face::Throw {
        let x = crate::circuit::symbol::SECOND_INPUT - NEAR;
        // Below the wire that comes in level.
        piece
            .labels
            .push(mark("83a".to_owned(), -e.up + 1.0 + ASCENT * SIZE, x));
    }
    piece
}

/// A meeting point within a column, with the numbers of the columns that refer to it.
pub(crate) fn node(words: &Words, pin: PinId, from: &[usize]) -> Piece {
    let text = words.node(pin);
    let place = words.loom.part_of(pin).place;
    let mut piece = Piece::new(text.clone(), Some(Shape::Dot), (0.0, 0.0));
    piece.place = Some(place);
    // A boxed number takes more room below the line than a name.
    let top = if from.is_empty() { 0.6 } else { 1.6 };
    let x = NEAR + width(&text, SIZE);
    piece.words(NEAR, top, &[text]);
    piece.numbers(x, top, from);
    piece
}

/// Marks the pin at the right of a cut-out, under the wire that leaves there, with the numbers of the columns
/// where its way goes on if they stand on another sheet.
pub(crate) fn side_way(piece: &mut Piece, to: &[usize]) {
    let top = 1.6;
    let x = CUTOUT_SIDE + NEAR;
    piece.words(x, top, &["31".to_owned()]);
    piece.numbers(x + width("31", SIZE), top, to);
}

/// Where a column meets another's node. At a terminal that nothing else leaves the line only bends.
pub(crate) fn meet(words: &Words, pin: PinId) -> Piece {
    let bends = matches!(words.loom.part_of(pin).kind, PartKind::Cutout(_));
    let dot = (!bends).then_some(Shape::Dot);
    let place = Some(words.loom.part_of(pin).place);
    let piece = Piece::new(words.node(pin), dot, (0.0, 0.0));
    Piece { place, ..piece }
}

/// A meeting point whose other side stands in the column of this number.
pub(crate) fn refer(words: &Words, pin: PinId, number: usize, above: bool) -> Piece {
    let text = words.node(pin);
    let mut piece = Piece::new(text.clone(), Some(Shape::Dot), (0.0, 0.0));
    let name_top = if above { -2.0 * block(1) - 2.6 } else { 1.6 };
    let box_top = if above {
        -block(1) - 1.6
    } else {
        block(1) + 2.6
    };
    piece.words(-NEAR, name_top, &[text]);
    piece.number(number.to_string(), at(0.0, box_top + ASCENT * SIZE));
    piece
}

/// Where a column leaves a rail or reaches one.
pub(crate) fn on_rail(words: &Words, pin: PinId) -> Piece {
    Piece::new(words.loom.pin_name(pin), None, (0.0, 0.0))
}

/// A short piece of rail at the top: the words stand above it.
pub(crate) fn stub(words: &Words, pin: PinId) -> Piece {
    let mut piece = Piece::new(
        words.loom.part_of(pin).name.clone(),
        Some(Shape::Stub),
        (0.0, 0.0),
    );
    let lines = words.end(pin);
    piece.words(-4.0, -block(lines.len()) - 1.0, &lines);
    piece
}

/// An earth point on the body, at the bottom.
pub(crate) fn earth(words: &Words, pin: PinId) -> Piece {
    let mut piece = Piece::new(
        words.loom.part_of(pin).name.clone(),
        Some(Shape::Earth),
        (0.0, 0.0),
    );
    piece.words(-4.0, 4.0, &words.end(pin));
    piece
}

/// An end at the bottom that is not the body: the battery's negative post, a stud with a wire back to it;
/// with the number of the column where the way goes on.
pub(crate) fn sink(words: &Words, pin: PinId, goal: Option<usize>) -> Piece {
    let name = words.loom.part_of(pin).name.clone();
    let mut piece = Piece::new(name, Some(Shape::Stub), (0.0, 0.0));
    let lines = words.end(pin);
    piece.words(-4.0, 1.2, &lines);
    if let Some(goal) = goal {
        let top = 1.2 + block(lines.len()) + BOX_ROOM;
        piece.number(goal.to_string(), at(-4.0 + BOX_ROOM, top + ASCENT * SIZE));
    }
    piece
}
