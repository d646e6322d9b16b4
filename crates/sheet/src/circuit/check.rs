//! Whether a sheet can be read: lists every overlap of a label with a label, a symbol, a line or the
//! border, of symbols with one another and with foreign lines, and of wires that run over or across one another.

use super::layout::{Ink, Label, Layout, Line, Symbol, border};
use crate::geometry::{Frame, pieces};

/// Two things in one place.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(crate) struct Overlap {
    pub one: String,
    pub other: String,
}

fn say_line(line: &Line) -> String {
    format!("line {:?} {}", line.ink, line.name)
}

fn say_label(label: &Label) -> String {
    format!(
        "label “{}” at {:.1},{:.1}",
        label.text, label.at.x, label.at.y
    )
}

fn say_symbol(symbol: &Symbol) -> String {
    format!(
        "symbol {} at {:.1},{:.1}",
        symbol.name, symbol.at.x, symbol.at.y
    )
}

/// Every overlap on a sheet.
pub(crate) fn overlaps(sheet: &Layout) -> Vec<Overlap> {
    let mut found = Vec::new();
    labels(sheet, &mut found);
    symbols(sheet, &mut found);
    wires(sheet, &mut found);
    loose(sheet, &mut found);
    found
}

/// Frames that only touch don't overlap; rounding must not make them.
const SLACK: f64 = -0.02;

fn labels(sheet: &Layout, found: &mut Vec<Overlap>) {
    let edge = border(sheet.width, sheet.height);
    for (i, label) in sheet.labels.iter().enumerate() {
        let frame = label.frame().grown(SLACK);
        let mut meets = |other: String| {
            found.push(Overlap {
                one: say_label(label),
                other,
            })
        };
        if !edge.holds(frame) {
            meets("the border".to_owned());
        }
        for other in sheet.labels[i + 1..]
            .iter()
            .filter(|o| o.frame().meets(frame))
        {
            meets(say_label(other));
        }
        for symbol in sheet.symbols.iter().filter(|s| body(s).meets(frame)) {
            meets(say_symbol(symbol));
        }
        for line in sheet
            .lines
            .iter()
            .filter(|l| pieces(&l.points, l.ink.width()).any(|p| p.meets(frame)))
        {
            meets(say_line(line));
        }
    }
}

/// What a symbol covers for a label: the marks of its pins stand beside its leads, which are thin.
fn body(symbol: &Symbol) -> Frame {
    let e = symbol.shape.extent();
    let lead = symbol.shape.lead();
    Frame {
        left: symbol.at.x - e.left,
        right: symbol.at.x + e.right,
        top: symbol.at.y - e.up + lead,
        bottom: symbol.at.y + e.down - lead,
    }
}

fn symbols(sheet: &Layout, found: &mut Vec<Overlap>) {
    for (i, symbol) in sheet.symbols.iter().enumerate() {
        let frame = symbol.shape.frame(symbol.at).grown(-0.1);
        let dot = |s: &Symbol| s.shape == super::symbol::Shape::Dot;
        for other in &sheet.symbols[i + 1..] {
            if other.shape.frame(other.at).meets(frame) {
                found.push(Overlap {
                    one: say_symbol(symbol),
                    other: say_symbol(other),
                });
            }
        }
        // A line ends on a dot, an earth or a stub; it passes no other symbol.
        let open = dot(symbol)
            || matches!(
                symbol.shape,
                super::symbol::Shape::Earth | super::symbol::Shape::Stub
            );
        for line in sheet
            .lines
            .iter()
            .filter(|l| l.name != symbol.name && !open)
        {
            if pieces(&line.points, 0.0).any(|p| p.grown(0.001).meets(frame)) {
                found.push(Overlap {
                    one: say_symbol(symbol),
                    other: say_line(line),
                });
            }
        }
    }
}

/// Both ends of a wire reach something: a symbol, a rail, or the line through a node.
fn loose(sheet: &Layout, found: &mut Vec<Overlap>) {
    for wire in sheet.lines.iter().filter(|l| matches!(l.ink, Ink::Wire(_))) {
        for end in wire.points.first().iter().chain(&wire.points.last()) {
            let here = Frame::around(**end, **end).grown(0.05);
            let symbol = sheet
                .symbols
                .iter()
                .any(|s| s.shape.frame(s.at).meets(here));
            let rail = |l: &&Line| matches!(l.ink, Ink::Rail | Ink::Inner);
            let line = sheet
                .lines
                .iter()
                .filter(rail)
                .any(|l| pieces(&l.points, 0.0).any(|p| p.grown(0.01).meets(here)));
            if !symbol && !line {
                found.push(Overlap {
                    one: say_line(wire),
                    other: format!("nothing at {:.1},{:.1}", end.x, end.y),
                });
            }
        }
    }
}

/// Wires, rails and links cross nothing: columns are put so that none has to.
fn wires(sheet: &Layout, found: &mut Vec<Overlap>) {
    let drawn = |l: &&Line| !matches!(l.ink, Ink::Rule { .. } | Ink::Place);
    let lines: Vec<&Line> = sheet.lines.iter().filter(drawn).collect();
    for (i, line) in lines.iter().enumerate() {
        let mine: Vec<Frame> = pieces(&line.points, 0.0).map(|p| p.grown(-0.05)).collect();
        for other in &lines[i + 1..] {
            if touch(&mine, other) {
                found.push(Overlap {
                    one: say_line(line),
                    other: say_line(other),
                });
            }
        }
    }
}

/// Whether the inside of a line's pieces meets another line: their ends may touch it.
fn touch(mine: &[Frame], other: &Line) -> bool {
    pieces(&other.points, 0.0).any(|b| {
        mine.iter().any(|a| {
            let (a, b) = (core(*a), core(b.grown(-0.05)));
            a.left <= b.right && b.left <= a.right && a.top <= b.bottom && b.top <= a.bottom
        })
    })
}

/// A piece shortened at its ends, its thickness put back to nothing.
fn core(piece: Frame) -> Frame {
    let (mut f, x, y) = (
        piece,
        (piece.left + piece.right) / 2.0,
        (piece.top + piece.bottom) / 2.0,
    );
    if f.left > f.right {
        (f.left, f.right) = (x, x);
    }
    if f.top > f.bottom {
        (f.top, f.bottom) = (y, y);
    }
    f
}
