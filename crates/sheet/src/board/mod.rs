//! The loom board: the loom laid flat, with what each bundle and each place is, and the faces of its connectors. On sheets,
//! where longer stretches are drawn longer but none to scale; and as large as it is, in tiles to lay wires on.
//!
//! | file | step |
//! |---|---|
//! | `tree` | which place follows which |
//! | `lay` | where they lie, so that nothing crosses |
//! | `words` | what stands beside them |
//! | `faces` | connectors as one looks at them |
//! | `full` | as large as it is, cut into tiles |

mod faces;
mod full;
mod lay;
mod tree;
mod words;

#[cfg(test)]
mod tests;

use crate::drawing::{Drawing, INK, Stroke};
use crate::geometry::{Frame, Point, at, border};
use crate::label::{Align, Label};
use crate::text::{ASCENT, LEADING, SIZE, wrap};
use crate::title::TitleBlock;
use crate::{Sheet, Title};
use faces::Face;
pub use full::board_full_size;
use lay::{Measures, Run, Spot, lay};
use loom::{Loom, StretchId};
use quantity::Quantity;
use stock::Stock;
use study::Lists;
use words::{Along, Beside};

/// Sheets that are tried, the smallest first, mm.
const SHEETS: [(f64, f64); 4] = [
    (420.0, 297.0),
    (594.0, 420.0),
    (841.0, 594.0),
    (1189.0, 841.0),
];
/// Width of the title block, mm.
const TITLE_WIDE: f64 = 110.0;
/// Free inside the border, and between what stands beside one another, mm.
const AIR: f64 = 6.0;
/// From one lane to another, mm.
const FAN: f64 = 9.0;
/// Least turn of a branch, mm.
const TURN: f64 = 8.0;
/// From a node to its words where wires go on, mm.
const TAIL: f64 = 5.0;

/// What a board is drawn of.
#[derive(Clone, Copy)]
pub(crate) struct Subject<'a> {
    pub loom: &'a Loom,
    pub stock: &'a Stock,
    pub lists: &'a Lists,
}

/// The loom board, as many sheets as it takes: the loom on the first, connectors below it and on those that follow.
pub fn board(loom: &Loom, stock: &Stock, lists: &Lists, title: &Title) -> Vec<Sheet> {
    let s = Subject { loom, stock, lists };
    let (pages, size) = pages(s, title);
    let of = pages.len();
    let told = told(s);
    let sheet = |(i, mut page): (usize, Drawing)| {
        page.told.clone_from(&told);
        let name = format!("board-{}", i + 1);
        let heading = format!("{}: loom board, sheet {} of {of}", title.title, i + 1);
        page.sheet(&name, &heading, size)
    };
    pages.into_iter().enumerate().map(sheet).collect()
}

fn block(title: &Title, number: usize, of: usize) -> TitleBlock {
    let number = match of {
        1 => String::new(),
        _ => format!("sheet {number} of {of}"),
    };
    TitleBlock::new(title, TITLE_WIDE, "Loom board", number)
}

/// The sheets before they are SVG, and how large each is.
fn pages(s: Subject, title: &Title) -> (Vec<Drawing>, (f64, f64)) {
    let (mut first, wide, tall) = flat(s);
    let foot = block(title, 1, 2).height() + AIR;
    let fits = |(w, h): &&(f64, f64)| {
        let inner = border(*w, *h);
        let room = (inner.right - inner.left, inner.bottom - inner.top - foot);
        wide + 2.0 * AIR <= room.0 && tall + 2.0 * AIR <= room.1
    };
    // What is larger than the largest goes on paper from a roll: as large as it is, with its margins.
    let none = border(0.0, 0.0);
    let roll = (
        wide + 2.0 * AIR + none.left - none.right,
        tall + 2.0 * AIR + none.top - none.bottom + foot,
    );
    let size = SHEETS.iter().find(fits).copied().unwrap_or(roll);
    let inner = border(size.0, size.1);
    shift(&mut first, at(inner.left + AIR, inner.top + AIR));
    let mut pages = vec![first];
    let mut flow = Flow {
        room: Frame {
            left: inner.left + AIR,
            top: inner.top + AIR,
            right: inner.right - AIR,
            bottom: inner.bottom - foot,
        },
        x: inner.left + AIR,
        y: inner.top + AIR + tall + AIR,
        row: 0.0,
    };
    for plug in &s.lists.fit.plugs {
        let face = Face::new((s.loom, s.stock), plug);
        let (corner, next) = flow.put((face.width(), face.height()));
        if next {
            pages.push(Drawing::default());
        }
        let last = pages.len() - 1;
        face.draw(s.loom, corner, &mut pages[last]);
    }
    let of = pages.len();
    for (i, page) in pages.iter_mut().enumerate() {
        frame(page, inner, &block(title, i + 1, of), i == 0);
    }
    (pages, size)
}

/// Where the next thing goes, row by row, page by page.
struct Flow {
    room: Frame,
    x: f64,
    y: f64,
    row: f64,
}

impl Flow {
    /// The corner for something of this size, and whether a new page begins with it.
    fn put(&mut self, (wide, tall): (f64, f64)) -> (Point, bool) {
        if self.x + wide > self.room.right && self.x > self.room.left {
            self.x = self.room.left;
            self.y += self.row + AIR;
            self.row = 0.0;
        }
        let next = self.y + tall > self.room.bottom;
        if next {
            (self.x, self.y, self.row) = (self.room.left, self.room.top, 0.0);
        }
        let corner = at(self.x, self.y);
        self.x += wide + AIR;
        self.row = self.row.max(tall);
        (corner, next)
    }
}

/// The loom laid flat, from the corner at nought; how wide and how tall it is.
fn flat(s: Subject) -> (Drawing, f64, f64) {
    let along = |stretch: StretchId| Along::new((s.loom, s.stock, s.lists), stretch);
    let stretch = |id: StretchId| {
        let words = along(id).width() + FAN + 8.0;
        words::drawn(s.loom, id).max(words)
    };
    let taken = |id: StretchId| {
        let words = along(id);
        let (above, below) = words::reach(&words, thick(s, id));
        (words.width() + 1.0, above, below)
    };
    let words = |place, again| Beside::new(s.loom, place, again).size();
    let measures = Measures {
        fan: FAN,
        stretch: &stretch,
        whole: false,
        along: &taken,
        words: &words,
        turn: TURN,
        tail: TAIL,
        air: 2.0,
    };
    let mut drawing = Drawing::default();
    let (mut wide, mut tall) = (0.0_f64, 0.0);
    for tree in tree::trees(s.loom) {
        let lain = lay(&tree, &measures);
        let f = lain.frame();
        let lain = lain.moved(at(-f.left, tall - f.top));
        for run in &lain.runs {
            draw_run(s, run, &along(run.stretch), &mut drawing);
        }
        for spot in &lain.spots {
            draw_spot(s, spot, &mut drawing);
        }
        wide = wide.max(f.right - f.left);
        tall += f.bottom - f.top + AIR;
    }
    (drawing, wide, (tall - AIR).max(0.0))
}

/// A bundle is drawn this much thinner than it is, and within these, mm.
const THINNER: f64 = 0.3;
const THICK: (f64, f64) = (0.9, 4.0);

fn thick(s: Subject, stretch: StretchId) -> f64 {
    let laid = s.lists.laid.iter().find(|l| l.stretch == stretch);
    let mm = laid.map_or(0.0, |l| l.bundle.laid.si() * 1e3);
    (mm * THINNER).clamp(THICK.0, THICK.1)
}

/// Ink of bundles.
const BUNDLE: &str = "#444444";

fn draw_run(s: Subject, run: &Run, words: &Along, to: &mut Drawing) {
    let points = run.points.clone();
    let wide = thick(s, run.stretch);
    to.line(points.clone(), Stroke::solid(BUNDLE, wide));
    let (from, end) = (points[points.len() - 2], points[points.len() - 1]);
    let from = at(from.x.max(points[0].x + FAN), from.y);
    let left = from.x + 1.0;
    let mut y = from.y - wide / 2.0 - 1.0 - crate::text::DESCENT * SIZE;
    for line in words.over.iter().rev() {
        to.words(Label::new(line.clone(), SIZE, at(left, y), Align::Start));
        y -= SIZE * LEADING;
    }
    let mut y = from.y + wide / 2.0 + 1.0 + ASCENT * SIZE;
    for line in &words.under {
        to.words(Label::new(line.clone(), SIZE, at(left, y), Align::Start));
        y += SIZE * LEADING;
    }
    if s.loom.stretch(run.stretch).panel.is_some() {
        // The panel across it, near the end that its words do not reach.
        let x = end.x - 2.5;
        let arm = wide / 2.0 + 3.0;
        for x in [x - 0.6, x + 0.6] {
            to.line(vec![at(x, end.y - arm), at(x, end.y + arm)], INK);
        }
    }
}

fn draw_spot(s: Subject, spot: &Spot, to: &mut Drawing) {
    let words = Beside::new(s.loom, spot.place, spot.again);
    if !spot.lead.is_empty() {
        to.line(spot.lead.clone(), Stroke::broken("black", 0.3));
    }
    words.draw(spot.words, to);
    to.circle(spot.at, 1.4, "white", INK);
}

fn shift(drawing: &mut Drawing, by: Point) {
    for mark in &mut drawing.marks {
        *mark = mark.moved(by);
    }
}

/// What the board shows, in words at its foot.
const LEGEND: &str = "Laid flat: longer stretches are drawn longer, none to scale; the length stands on each. A double line across a bundle: a panel. \
Beside each place: its parts, and the wires that end there. Connectors are seen from the side where the wires enter; where a housing has its ways in another order, the numbers moulded on it count.";

fn frame(page: &mut Drawing, inner: Frame, block: &TitleBlock, legend: bool) {
    page.framed(inner, block, TITLE_WIDE);
    if !legend {
        return;
    }
    let wide = inner.right - TITLE_WIDE - inner.left - 2.0 * AIR;
    let lines = wrap(LEGEND, SIZE, wide);
    let mut y = inner.bottom - lines.len() as f64 * SIZE * LEADING - SIZE / 2.0;
    for line in lines {
        y += SIZE * LEADING;
        let place = at(inner.left + AIR, y - SIZE * LEADING + SIZE * ASCENT);
        page.words(Label::new(line, SIZE, place, Align::Start));
    }
}

/// The loom in a sentence a stretch, for who can't see it.
fn told(s: Subject) -> String {
    let mut said = Vec::new();
    for laid in &s.lists.laid {
        let stretch = s.loom.stretch(laid.stretch);
        let ends = stretch.ends.map(|p| s.loom.place(p).name.as_str());
        let names: Vec<&str> = stretch
            .wires
            .iter()
            .map(|w| s.loom.wire(*w).name.as_str())
            .collect();
        said.push(format!(
            "{}, {}: {}.",
            ends.join(" to "),
            stretch.length.show(),
            names.join(", ")
        ));
    }
    said.join(" ")
}
