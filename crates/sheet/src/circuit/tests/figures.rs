//! Figures of how good diagrams are, kept as a snapshot: one that gets worse is seen.

use super::super::check::overlaps;
use super::super::layout::{Ink, Layout};
use super::{MADE, Walked};
use crate::geometry::{Frame, at, pieces};

/// Side of a square of paper that is free or not, mm.
const SQUARE: f64 = 4.0;

/// Of many sheets together.
#[derive(Default)]
struct Figures {
    sheets: usize,
    bends: usize,
    /// Overlaps and crossings.
    faults: usize,
    squares: usize,
    free: usize,
}

impl Figures {
    fn of(walked: &Walked) -> Self {
        let mut all = Self::default();
        for sheet in walked.layouts() {
            all.sheets += 1;
            all.faults += overlaps(&sheet).len();
            let drawn = sheet
                .lines
                .iter()
                .filter(|l| !matches!(l.ink, Ink::Rule { .. } | Ink::Place));
            all.bends += drawn.map(|l| l.points.len() - 2).sum::<usize>();
            let (squares, free) = room(&sheet);
            all.squares += squares;
            all.free += free;
        }
        all
    }

    fn add(&mut self, other: &Self) {
        self.sheets += other.sheets;
        self.bends += other.bends;
        self.faults += other.faults;
        self.squares += other.squares;
        self.free += other.free;
    }

    fn said(&self) -> String {
        format!(
            "{} sheets, {} bends, {} overlaps or crossings, {:.0} % of the paper free",
            self.sheets,
            self.bends,
            self.faults,
            100.0 * self.free as f64 / self.squares as f64
        )
    }
}

/// Squares of the paper that circuits stand on, and those of them that nothing lies on.
fn room(sheet: &Layout) -> (usize, usize) {
    let area = sheet.circuits();
    let labels = sheet.labels.iter().map(crate::label::Label::frame);
    let symbols = sheet.symbols.iter().map(|s| s.shape.frame(s.at));
    let lines = sheet
        .lines
        .iter()
        .flat_map(|l| pieces(&l.points, l.ink.width()));
    let taken: Vec<Frame> = labels.chain(symbols).chain(lines).collect();
    let steps = |from: f64, to: f64| ((to - from) / SQUARE) as usize;
    let (columns, rows) = (steps(area.left, area.right), steps(area.top, area.bottom));
    let square = |i: usize| {
        let (column, row) = ((i % columns) as f64, (i / columns) as f64);
        let corner = at(area.left + column * SQUARE, area.top + row * SQUARE);
        Frame::around(corner, at(corner.x + SQUARE, corner.y + SQUARE))
    };
    let free = (0..columns * rows).filter(|i| !taken.iter().any(|t| t.meets(square(*i))));
    (columns * rows, free.count())
}

#[test]
fn figures_of_the_diagrams() {
    let examples = [
        ("farm", include_str!("../../../../../examples/farm.toml")),
        (
            "camper",
            include_str!("../../../../../examples/camper.toml"),
        ),
        ("lorry", include_str!("../../../../../examples/lorry.toml")),
    ];
    let mut said: Vec<String> = Vec::new();
    for (name, text) in examples {
        said.push(format!("{name}: {}", Figures::of(&Walked::of(text)).said()));
    }
    let mut all = Figures::default();
    MADE.iter().for_each(|walked| all.add(&Figures::of(walked)));
    said.push(format!("{} generated plans: {}", MADE.len(), all.said()));
    insta::assert_snapshot!(said.join("\n"));
}
