//! The board as large as the loom is: each stretch as long as it is laid, clips where they stand, panels in the middle of
//! their stretch; cut into tiles of paper with the marks by which they are joined.

use super::lay::{Lain, Measures, Run, Spot, lay};
use super::words::{self, Along, Beside};
use super::{BUNDLE, Subject, tree};
use crate::drawing::{Drawing, FAINT, INK, Stroke};
use crate::geometry::{Frame, Point, at};
use crate::label::{Align, Label};
use crate::text::{ASCENT, LARGE, LEADING, SIZE, wrap};
use crate::{Sheet, Title};
use loom::{Loom, StretchId};
use quantity::Quantity;
use stock::Stock;
use study::Lists;

/// From one lane to another, mm.
const FAN: f64 = 30.0;
/// Least turn of a branch, mm: room for a hand.
const TURN: f64 = 40.0;
/// Between any two things, mm.
const AIR: f64 = 10.0;
const TAIL: f64 = 20.0;
/// Round the whole, mm.
const AROUND: f64 = 15.0;
/// Free at each edge of a tile: what a printer does not reach, mm.
const MARGIN: f64 = 12.0;
/// From a corner's mark to words beside it, mm.
const BESIDE_MARK: f64 = 3.0;
/// Height of the words at a tile's foot, mm.
const FOOT: f64 = 8.0;

/// Every tile on which something lies, row by row. `paper`: wide and tall, mm.
pub fn board_full_size(
    loom: &Loom,
    stock: &Stock,
    lists: &Lists,
    title: &Title,
    paper: (f64, f64),
) -> Vec<Sheet> {
    let s = Subject { loom, stock, lists };
    let (whole, size) = full(s);
    let (wide, tall) = (paper.0 - 2.0 * MARGIN, paper.1 - 2.0 * MARGIN - FOOT);
    let columns = (size.0 / wide).ceil().max(1.0) as usize;
    let rows = (size.1 / tall).ceil().max(1.0) as usize;
    let part = |row: usize, column: usize| Frame {
        left: column as f64 * wide,
        top: row as f64 * tall,
        right: (column + 1) as f64 * wide,
        bottom: (row + 1) as f64 * tall,
    };
    let mut tiles: Vec<(usize, usize)> = Vec::new();
    for row in 0..rows {
        for column in 0..columns {
            let f = part(row, column);
            if whole.marks.iter().any(|m| m.frame().meets(f)) {
                tiles.push((row, column));
            }
        }
    }
    let name = |(row, column): (usize, usize)| format!("{}{}", letter(row), column + 1);
    let of = tiles.len();
    let each = tiles.iter().enumerate().map(|(i, tile)| {
        let f = part(tile.0, tile.1);
        let mut over = joins(paper, (wide, tall));
        let beside = [
            ("left", tile.1.checked_sub(1).map(|c| (tile.0, c))),
            ("right", Some((tile.0, tile.1 + 1))),
            ("above", tile.0.checked_sub(1).map(|r| (r, tile.1))),
            ("below", Some((tile.0 + 1, tile.1))),
        ];
        let beside = beside.iter().filter_map(|(side, t)| {
            let there = t.filter(|t| tiles.contains(t))?;
            Some(format!("{side} {}", name(there)))
        });
        let beside: Vec<String> = beside.collect();
        let says = format!(
            "{}: tile {}, {} of {of}. Print at 100 %; the bar is 50 mm. Joins: {}.",
            title.title,
            name(*tile),
            i + 1,
            if beside.is_empty() {
                "nothing".to_owned()
            } else {
                beside.join(", ")
            }
        );
        let lines = wrap(&says, SIZE, wide - 60.0 - BESIDE_MARK);
        let mut y = paper.1 - MARGIN - FOOT + 1.0 + SIZE * ASCENT;
        for line in lines {
            over.words(Label::new(
                line,
                SIZE,
                at(MARGIN + BESIDE_MARK, y),
                Align::Start,
            ));
            y += SIZE * LEADING;
        }
        let heading = format!("{}: loom board 1:1, tile {}", title.title, name(*tile));
        let corner = at(f.left - MARGIN, f.top - MARGIN);
        whole.window(
            &format!("board-full-{}", name(*tile).to_lowercase()),
            &heading,
            corner,
            paper,
            &over,
        )
    });
    each.collect()
}

/// A, B, … Z, AA, …
fn letter(row: usize) -> String {
    let last = char::from(b'A' + (row % 26) as u8);
    match row / 26 {
        0 => last.to_string(),
        n => format!("{}{last}", letter(n - 1)),
    }
}

/// White over what belongs to other tiles, marks at the corners where tiles meet, and a bar to measure.
fn joins(paper: (f64, f64), (wide, tall): (f64, f64)) -> Drawing {
    let mut over = Drawing::default();
    let (right, bottom) = (MARGIN + wide, MARGIN + tall);
    let none = Stroke::solid("none", 0.0);
    let strips = [
        (at(0.0, 0.0), at(paper.0, MARGIN)),
        (at(0.0, bottom), at(paper.0, paper.1)),
        (at(0.0, 0.0), at(MARGIN, paper.1)),
        (at(right, 0.0), at(paper.0, paper.1)),
    ];
    for (a, b) in strips {
        over.frame(Frame::around(a, b), "white", none.clone());
    }
    let edge = Frame {
        left: MARGIN,
        top: MARGIN,
        right,
        bottom,
    };
    over.frame(edge, "none", FAINT);
    for (x, sx) in [(MARGIN, -1.0), (right, 1.0)] {
        for (y, sy) in [(MARGIN, -1.0), (bottom, 1.0)] {
            over.line(vec![at(x, y + sy), at(x, y + 6.0 * sy)], INK);
            over.line(vec![at(x + sx, y), at(x + 6.0 * sx, y)], INK);
            over.circle(at(x, y), 1.2, "none", INK);
        }
    }
    let y = paper.1 - MARGIN - 1.0;
    over.line(
        vec![at(right - 50.0, y), at(right, y)],
        Stroke::solid("black", 0.5),
    );
    for x in [right - 50.0, right] {
        over.line(vec![at(x, y - 1.5), at(x, y + 1.5)], INK);
    }
    over
}

/// The whole, its corner at nought, and how large it is.
pub(super) fn full(s: Subject) -> (Drawing, (f64, f64)) {
    let mut drawing = Drawing::default();
    let lain = lain(s);
    for run in &lain.runs {
        draw_run(s, run, &mut drawing);
    }
    for spot in &lain.spots {
        draw_spot(s, spot, &mut drawing);
    }
    let frames = drawing.marks.iter().map(crate::drawing::Mark::frame);
    let (right, bottom) = frames.fold((0.0_f64, 0.0_f64), |(x, y), f| {
        (x.max(f.right), y.max(f.bottom))
    });
    (drawing, (right + AROUND, bottom + AROUND))
}

/// The stretches as they lie.
#[cfg(test)]
pub(super) fn runs(s: Subject) -> Vec<Run> {
    lain(s).runs
}

/// All trees one below the other.
fn lain(s: Subject) -> Lain {
    let stretch = |id: StretchId| s.loom.stretch(id).length.si() * 1e3;
    let taken = |id: StretchId| {
        let words = Along::new((s.loom, s.stock, s.lists), id);
        let (above, below) = words::reach(&words, thick(s, id) + 2.0 * ARM);
        (
            words.width().max(DRAWN_LONGER) + 2.0 + thick(s, id) / 2.0 + ARM,
            above + SIZE * LEADING,
            below,
        )
    };
    let words = |place, again| Beside::new(s.loom, place, again).size();
    let measures = Measures {
        fan: FAN,
        stretch: &stretch,
        whole: true,
        along: &taken,
        words: &words,
        turn: TURN,
        tail: TAIL,
        air: AIR,
    };
    let mut all = Lain::default();
    let mut tall = AROUND;
    for tree in tree::trees(s.loom) {
        let lain = lay(&tree, &measures);
        let f = lain.frame();
        all.join(lain.moved(at(AROUND - f.left, tall - f.top)));
        tall += f.bottom - f.top + AROUND;
    }
    all
}

/// A point so far along a line, mm, and which way the line goes there.
fn along(points: &[Point], mut mm: f64) -> (Point, (f64, f64)) {
    for pair in points.windows(2) {
        let (dx, dy) = (pair[1].x - pair[0].x, pair[1].y - pair[0].y);
        let long = dx.hypot(dy).max(1e-9);
        let way = (dx / long, dy / long);
        if mm <= long || std::ptr::eq(pair, &points[points.len() - 2..]) {
            return (at(pair[0].x + way.0 * mm, pair[0].y + way.1 * mm), way);
        }
        mm -= long;
    }
    (points[0], (1.0, 0.0))
}

fn across(to: &mut Drawing, (p, way): (Point, (f64, f64)), arm: f64, stroke: Stroke) {
    let (nx, ny) = (-way.1 * arm, way.0 * arm);
    to.line(vec![at(p.x - nx, p.y - ny), at(p.x + nx, p.y + ny)], stroke);
}

/// A clip reaches so far beyond the bundle, mm.
const ARM: f64 = 3.0;
/// Room for the words that say so, mm.
const DRAWN_LONGER: f64 = 80.0;

/// How thick a bundle is, mm.
fn thick(s: Subject, stretch: StretchId) -> f64 {
    let laid = s.lists.laid.iter().find(|l| l.stretch == stretch);
    laid.map_or(1.0, |l| l.bundle.laid.si() * 1e3).max(1.0)
}

fn draw_run(s: Subject, run: &Run, to: &mut Drawing) {
    let points = run.points.clone();
    let laid = s.lists.laid.iter().find(|l| l.stretch == run.stretch);
    let thick = thick(s, run.stretch);
    // The bundle as thick as it is, light, so that wires laid on it are seen.
    to.line(points.clone(), Stroke::solid("#d9d9d9", thick));
    to.line(points.clone(), Stroke::solid(BUNDLE, 0.3));
    let long: f64 = points
        .windows(2)
        .map(|p| (p[1].x - p[0].x).hypot(p[1].y - p[0].y))
        .sum();
    let arm = thick / 2.0 + ARM;
    if let Some(laid) = laid {
        // Clips, the outermost near the ends, at even steps between.
        let clips = laid.clips.max(1);
        for n in 0..clips {
            let mm = long * (f64::from(n) + 0.5) / f64::from(clips);
            across(to, along(&points, mm), arm, Stroke::solid("black", 0.5));
        }
        // Ties, where the wires lie open: two strokes close together, no longer than the bundle is thick.
        for n in 0..laid.ties {
            let mm = long * (f64::from(n) + 1.0) / (f64::from(laid.ties) + 1.0);
            for off in [-0.6, 0.6] {
                let stroke = Stroke::solid("black", 0.35);
                across(to, along(&points, mm + off), thick / 2.0 + 0.5, stroke);
            }
        }
    }
    let words = Along::new((s.loom, s.stock, s.lists), run.stretch);
    let start = points[points.len() - 2];
    // Clips on a turn reach to the right of it.
    let clear = if points.len() > 2 { arm } else { 0.0 };
    let start = at(start.x.max(points[0].x + FAN) + 2.0 + clear, start.y);
    let mut over = words.over.clone();
    if run.stretched {
        over.push("drawn longer than it is: cut by the list".to_owned());
    }
    let mut y = start.y - arm - 1.0;
    for line in over.iter().rev() {
        to.words(Label::new(line.clone(), SIZE, at(start.x, y), Align::Start));
        y -= SIZE * LEADING;
    }
    let mut y = start.y + arm + ASCENT * SIZE;
    for line in &words.under {
        to.words(Label::new(line.clone(), SIZE, at(start.x, y), Align::Start));
        y += SIZE * LEADING;
    }
    if let Some(panel) = &s.loom.stretch(run.stretch).panel {
        let (p, way) = along(&points, long / 2.0);
        for mm in [-1.0, 1.0] {
            let p = at(p.x + way.0 * mm, p.y + way.1 * mm);
            across(to, (p, way), arm, Stroke::solid("black", 0.9));
        }
        let place = at(p.x, p.y - arm - 7.0);
        to.words(Label::new(panel.name.clone(), LARGE, place, Align::Middle));
    }
}

fn draw_spot(s: Subject, spot: &Spot, to: &mut Drawing) {
    if !spot.lead.is_empty() {
        to.line(spot.lead.clone(), Stroke::broken("black", 0.3));
    }
    Beside::new(s.loom, spot.place, spot.again).draw(spot.words, to);
    to.circle(spot.at, 4.0, "white", INK);
    across(to, (spot.at, (1.0, 0.0)), 2.0, INK);
    across(to, (spot.at, (0.0, 1.0)), 2.0, INK);
}
