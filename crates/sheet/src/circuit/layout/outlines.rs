//! Broken outlines around what is in one place. Takes a sheet on which everything stands, adds an outline wherever one
//! can be drawn that holds two parts of a place or more, and nothing of another.

use super::rows::{Key, Rows};
use super::strip::{BESIDE, Gap};
use super::wires::Placed;
use super::words::SIZE;
use super::{Ink, Layout, Line, part_of};
use crate::geometry::Frame;
use crate::text::width;
use loom::PlaceId;
use std::collections::{BTreeMap, BTreeSet};

/// From what is inside to the outline, above and beside it, mm.
const AROUND: (f64, f64) = (0.6, 1.4);
/// An outline keeps this far from lines that run along it, mm.
const CLEAR: f64 = 0.6;

/// And this far from words and symbols: more than half its width, mm.
const INK: f64 = 0.2;

/// What is in one place, in columns beside one another.
#[derive(Clone)]
struct Group {
    place: PlaceId,
    frame: Frame,
    /// The axes of its columns.
    axes: Vec<f64>,
    /// Its pieces and wires.
    names: BTreeSet<String>,
    /// Its parts.
    parts: BTreeSet<String>,
    /// Its levels, each with the bits of the axis on which it stands.
    levels: BTreeSet<(Key, u64)>,
}

impl Group {
    fn with(&self, other: &Self) -> Self {
        let join = |a: &BTreeSet<String>, b: &BTreeSet<String>| a.union(b).cloned().collect();
        Self {
            place: self.place,
            frame: Frame {
                left: self.frame.left.min(other.frame.left),
                top: self.frame.top.min(other.frame.top),
                right: self.frame.right.max(other.frame.right),
                bottom: self.frame.bottom.max(other.frame.bottom),
            },
            axes: [&self.axes[..], &other.axes].concat(),
            names: join(&self.names, &other.names),
            parts: join(&self.parts, &other.parts),
            levels: self.levels.union(&other.levels).copied().collect(),
        }
    }

    fn outline(&self) -> Frame {
        let f = self.frame;
        Frame {
            left: f.left - AROUND.1,
            top: f.top - AROUND.0,
            right: f.right + AROUND.1,
            bottom: f.bottom + AROUND.0,
        }
    }

    /// Whether both stand at one height, at least in part.
    fn level_with(&self, other: &Self) -> bool {
        self.frame.top < other.frame.bottom && other.frame.top < self.frame.bottom
    }

    /// Whether its outline holds all of its own, and meets nothing else.
    fn clean(&self, sheet: &Layout) -> bool {
        let edge = self.outline();
        let inside = |f: Frame| edge.grown(-INK).holds(f);
        let outside = |f: Frame| !edge.grown(INK).meets(f);
        let fits = |f: Frame, of: &str| outside(f) || (inside(f) && self.names.contains(of));
        let words = sheet.labels.iter().all(|l| fits(l.frame(), &l.of));
        let frame = |s: &super::Symbol| s.shape.frame(s.at);
        words
            && sheet.symbols.iter().all(|s| fits(frame(s), &s.name))
            && sheet.lines.iter().all(|l| self.lets(edge, l))
    }

    /// Whether a line does not run along the outline, nor upright through it beside the columns that are in it.
    fn lets(&self, edge: Frame, line: &Line) -> bool {
        line.points.windows(2).all(|p| {
            let piece = Frame::around(p[0], p[1]);
            if !piece.grown(CLEAR).meets(edge) {
                return true;
            }
            let near = |a: f64, b: f64| (a - b).abs() < CLEAR + line.ink.width() / 2.0;
            if piece.left == piece.right {
                let own = self.axes.iter().any(|x| near(*x, piece.left));
                own || self.names.contains(&line.name)
            } else {
                !near(piece.top, edge.top) && !near(piece.top, edge.bottom)
            }
        })
    }
}

/// Adds the outlines.
pub(crate) fn emit(sheet: &mut Layout, rows: &Rows, placed: &[Placed]) {
    let mut apart = BTreeSet::new();
    // What is drawn in several columns stands in one outline with all that is drawn of it, or in none.
    let groups = loop {
        let groups = grouped(sheet, rows, placed, &apart);
        let more: Vec<Key> = spread(placed)
            .into_iter()
            .filter(|(key, axes)| {
                let with = |g: &Group| {
                    axes.iter()
                        .filter(|x| g.levels.contains(&(*key, x.to_bits())))
                        .count()
                };
                !apart.contains(key) && groups.iter().any(|g| (1..axes.len()).contains(&with(g)))
            })
            .map(|(key, _)| key)
            .collect();
        if more.is_empty() {
            break groups;
        }
        apart.extend(more);
    };
    let lines: Vec<Line> = groups.iter().map(|g| line(g.outline())).collect();
    sheet.lines.extend(lines);
}

/// The levels of relays and nodes that stand in several columns, with the axes of those.
fn spread(placed: &[Placed]) -> BTreeMap<Key, Vec<f64>> {
    let mut out: BTreeMap<Key, Vec<f64>> = BTreeMap::new();
    for p in placed {
        for cell in &p.strand.cells {
            if matches!(cell.key, Key::Link(_) | Key::Node(_)) {
                out.entry(cell.key).or_default().push(p.x);
            }
        }
    }
    out.retain(|_, axes| axes.len() > 1);
    out
}

/// What can stand in one outline, without the levels that stand apart.
fn grouped(sheet: &Layout, rows: &Rows, placed: &[Placed], apart: &BTreeSet<Key>) -> Vec<Group> {
    let mut groups: Vec<Group> = Vec::new();
    for run in placed.iter().flat_map(|p| runs(rows, p, apart)) {
        let grown = groups
            .iter()
            .position(|g| g.place == run.place && g.level_with(&run) && g.with(&run).clean(sheet));
        match grown {
            Some(i) => groups[i] = groups[i].with(&run),
            None => groups.push(run),
        }
    }
    groups.retain(|g| g.parts.len() > 1 && g.clean(sheet));
    groups
}

fn line(f: Frame) -> Line {
    Line {
        name: String::new(),
        ink: Ink::Place,
        points: f.ring(),
    }
}

/// What follows one another in a column and is in one place.
fn runs(rows: &Rows, p: &Placed, apart: &BTreeSet<Key>) -> Vec<Group> {
    let mut out: Vec<Group> = Vec::new();
    let mut open = false;
    for cell in &p.strand.cells {
        let Some(place) = cell.piece.place.filter(|_| !apart.contains(&cell.key)) else {
            open = false;
            continue;
        };
        let y = rows.at(cell.key);
        let own = cell.piece.frame();
        let frame = Frame {
            left: p.x + own.left,
            top: y + own.top,
            right: p.x + own.right,
            bottom: y + own.bottom,
        };
        let name = &cell.piece.name;
        let part = part_of(name).to_owned();
        let mut mine = Group {
            place,
            frame,
            axes: vec![p.x],
            names: BTreeSet::from([name.clone()]),
            parts: BTreeSet::from([part]),
            levels: BTreeSet::from([(cell.key, p.x.to_bits())]),
        };
        match out.last_mut().filter(|last| open && last.place == place) {
            Some(last) => {
                if let Gap::Wire { name, lines, .. } = &cell.above {
                    let words = lines.iter().map(|l| width(l, SIZE)).fold(0.0, f64::max);
                    mine.frame.right = mine.frame.right.max(p.x + BESIDE + words);
                    mine.names.insert(name.clone());
                }
                *last = last.with(&mine);
                last.axes.truncate(1);
            }
            None => out.push(mine),
        }
        open = true;
    }
    out
}
