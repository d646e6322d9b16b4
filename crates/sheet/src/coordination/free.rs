//! Free places for words inside the plot: beside the line that they are about, on no line, nearer to it than to
//! any other.

use crate::chart::{Area, Fill, Upright, block, clip};
use crate::geometry::{Frame, Point, at};
use crate::text::{ASCENT, DESCENT, SIZE, width, wrap_figures};

/// Words may be as wide as this, mm; the widest that finds a place is taken.
const WIDTHS: [f64; 5] = [64.0, 44.0, 34.0, 27.0, 22.0];
/// In so many lines at most.
const LINES: usize = 4;
/// From words to their own line, mm.
const NEAR: f64 = 1.3;
/// From words to any line, and to a line that they are not about, mm.
const CLEAR: f64 = 0.6;
const APART: f64 = 2.2;
/// From one place that is tried to the next, mm.
const TRIED: f64 = 2.0;

/// Where there is no tint.
const PAPER: Fill = Fill::tint("white");

/// What is drawn in a plot, as far as words must keep clear of it.
pub(super) struct Free {
    plot: Frame,
    runs: Vec<Vec<Point>>,
    taken: Vec<Frame>,
    /// Tints, which words lie either on or off.
    tints: Vec<Area>,
}

impl Free {
    /// In a plot with these lines and tints.
    pub fn new(plot: Frame, runs: Vec<Vec<Point>>, tints: Vec<Area>) -> Self {
        Self {
            plot,
            runs,
            taken: Vec::new(),
            tints,
        }
    }

    /// Keeps a box clear.
    pub fn take(&mut self, frame: Frame) {
        self.taken.push(frame);
    }

    /// A place for words beside their own line: the lines and the box that they cover. Rather than half on a tint
    /// they are broken into more lines. A line that lies on their own one is `along` it.
    pub fn beside(
        &mut self,
        own: &[Vec<Point>],
        along: &[Vec<Point>],
        text: &str,
    ) -> Option<(Vec<String>, Frame)> {
        let anchors = anchors(own);
        let near = [own, along].concat();
        let ways = [false, true].into_iter();
        for (half, most) in ways.flat_map(|half| WIDTHS.map(|w| (half, w))) {
            let lines = wrap_figures(text, SIZE, most);
            if lines.len() > LINES {
                continue;
            }
            let wide = lines.iter().map(|l| width(l, SIZE)).fold(0.0, f64::max);
            let size = (wide, block(lines.len()));
            let places = anchors.iter().flat_map(|a| around(*a, size));
            let fits = |f: &Frame| (half || self.whole(*f)) && self.fits(*f, &near);
            if let Some(frame) = places.into_iter().find(fits) {
                self.take(frame);
                return Some((lines, frame));
            }
        }
        None
    }

    /// A place for words that run upwards in the middle of a box, as low as there is one.
    pub fn upright(&mut self, within: Frame, text: &str) -> Option<Upright> {
        let left = (within.left + within.right - (ASCENT + DESCENT) * SIZE) / 2.0;
        let tries = ((within.bottom - within.top) / TRIED) as usize;
        let upright = |n: usize| Upright {
            text: text.to_owned(),
            at: at(left, within.bottom - NEAR - n as f64 * TRIED),
        };
        let found = (0..tries)
            .map(upright)
            .find(|u| within.holds(u.frame()) && self.fits(u.frame(), &[]))?;
        self.take(found.frame());
        Some(found)
    }

    /// What words in this box lie on: the tint that holds it, else the paper.
    pub fn ground(&self, frame: Frame) -> Fill {
        let holds = |a: &&Area| !clip::touches(frame, &a.points) && clip::around(&a.points, frame);
        let tint = self.tints.iter().rev().find(holds);
        tint.map_or(PAPER, |a| a.fill).tag()
    }

    /// Whether a box lies wholly on or off every tint.
    fn whole(&self, frame: Frame) -> bool {
        !self.tints.iter().any(|a| clip::touches(frame, &a.points))
    }

    fn fits(&self, frame: Frame, near: &[Vec<Point>]) -> bool {
        let through = |run: &Vec<Point>, by: f64| {
            let piece = |p: &[Point]| clip::piece(frame.grown(by), p[0], p[1]).is_some();
            run.windows(2).any(piece)
        };
        let meets = |run: &Vec<Point>| match near.is_empty() || near.contains(run) {
            true => through(run, CLEAR),
            false => through(run, APART),
        };
        self.plot.grown(-CLEAR).holds(frame)
            && !self.taken.iter().any(|t| t.meets(frame.grown(CLEAR)))
            && !self.runs.iter().any(meets)
    }
}

/// Points along runs, those in the middle first.
fn anchors(runs: &[Vec<Point>]) -> Vec<Point> {
    let mut all = Vec::new();
    for pair in runs.iter().flat_map(|r| r.windows(2)) {
        let (a, b) = (pair[0], pair[1]);
        let steps = ((b.x - a.x).hypot(b.y - a.y) / TRIED).ceil().max(1.0) as usize;
        let along = |n: usize| n as f64 / steps as f64;
        all.extend(
            (0..=steps).map(|n| at(a.x + (b.x - a.x) * along(n), a.y + (b.y - a.y) * along(n))),
        );
    }
    let half = all.len() / 2;
    let (before, after) = all.split_at(half);
    let mut out: Vec<Point> = Vec::new();
    let mut before = before.iter().rev();
    for anchor in after {
        out.push(*anchor);
        out.extend(before.next());
    }
    out
}

/// The boxes of a size around a point: above at the right first, where falling curves leave room.
fn around(anchor: Point, (wide, tall): (f64, f64)) -> impl Iterator<Item = Frame> {
    const SIDES: [(f64, f64); 8] = [
        (1.0, -1.0),
        (-1.0, 1.0),
        (1.0, 0.0),
        (-1.0, 0.0),
        (0.0, -1.0),
        (0.0, 1.0),
        (1.0, 1.0),
        (-1.0, -1.0),
    ];
    SIDES.into_iter().map(move |(dx, dy)| {
        let x = anchor.x + dx * (wide / 2.0 + NEAR);
        let y = anchor.y + dy * (tall / 2.0 + NEAR);
        Frame {
            left: x - wide / 2.0,
            right: x + wide / 2.0,
            top: y - tall / 2.0,
            bottom: y + tall / 2.0,
        }
    })
}
