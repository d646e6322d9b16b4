//! Where the places of a tree lie on the board. The longest branch goes straight on; every other, and a place's words where
//! wires go on from it, turns off upwards or downwards, as little as leaves it free of what lies there already. All of a
//! place's turns lie in a strip right behind it, where nothing else does: so nothing crosses.

use super::tree::Node;
use crate::geometry::{Frame, Point, at};
use loom::{PlaceId, StretchId};

/// How it is to lie, mm.
pub(super) struct Measures<'a> {
    /// How wide the strip behind a place is.
    pub fan: f64,
    /// How long a stretch is drawn.
    pub stretch: &'a dyn Fn(StretchId) -> f64,
    /// Whether that holds for its slant as well, or for its level part alone.
    pub whole: bool,
    /// What the words at a stretch take: to the right, above and below its line, from where it lies level.
    pub along: &'a dyn Fn(StretchId) -> (f64, f64, f64),
    /// How wide and tall the words beside a place are.
    pub words: &'a dyn Fn(PlaceId, bool) -> (f64, f64),
    /// Least turn.
    pub turn: f64,
    /// From the strip to the words of a place where wires go on.
    pub tail: f64,
    /// Between any two things.
    pub air: f64,
}

/// A stretch as it lies.
#[derive(Clone, Debug)]
pub(super) struct Run {
    pub stretch: StretchId,
    /// From place to place.
    pub points: Vec<Point>,
    /// It is drawn longer than it is: its turn alone takes more.
    pub stretched: bool,
}

/// A place as it lies.
#[derive(Clone, Debug)]
pub(super) struct Spot {
    pub place: PlaceId,
    pub again: bool,
    pub at: Point,
    /// Upper left corner of its words.
    pub words: Point,
    /// The line that leads there if they do not stand right beside it.
    pub lead: Vec<Point>,
}

/// A tree, or a branch of one, as it lies from its first place.
#[derive(Clone, Debug, Default)]
pub(super) struct Lain {
    pub runs: Vec<Run>,
    pub spots: Vec<Spot>,
    /// What is taken.
    taken: Vec<Frame>,
    /// What the turns at its first place take: nothing to one another, which all begin there.
    turns: Vec<Frame>,
}

/// From a node to words beside it, mm.
const BESIDE: f64 = 3.0;
/// Turns are tried in these steps, mm.
const STEP: f64 = 1.0;
/// No turn is tried beyond this, mm.
const FAR: f64 = 20_000.0;

impl Lain {
    /// The box round all of it.
    pub fn frame(&self) -> Frame {
        let none = Frame::around(at(0.0, 0.0), at(0.0, 0.0));
        self.taken.iter().fold(none, |all, f| Frame {
            left: all.left.min(f.left),
            top: all.top.min(f.top),
            right: all.right.max(f.right),
            bottom: all.bottom.max(f.bottom),
        })
    }

    /// Everything moved.
    pub fn moved(mut self, by: Point) -> Self {
        let to = |p: &mut Point| *p = at(p.x + by.x, p.y + by.y);
        for run in &mut self.runs {
            run.points.iter_mut().for_each(to);
        }
        for spot in &mut self.spots {
            to(&mut spot.at);
            to(&mut spot.words);
            spot.lead.iter_mut().for_each(to);
        }
        for f in self.taken.iter_mut().chain(&mut self.turns) {
            *f = shifted(*f, by);
        }
        self
    }

    /// With another beside it.
    pub fn join(&mut self, other: Self) {
        self.runs.extend(other.runs);
        self.spots.extend(other.spots);
        self.taken.extend(other.taken);
        self.turns.extend(other.turns);
    }

    /// Whether something would lie clear of it, so much apart.
    fn clear(&self, frames: &[Frame], by: Point, air: f64) -> bool {
        let mut each = frames.iter().map(|f| shifted(*f, by).grown(air / 2.0));
        each.all(|f| !self.taken.iter().any(|t| t.grown(air / 2.0).meets(f)))
    }
}

fn shifted(f: Frame, by: Point) -> Frame {
    Frame {
        left: f.left + by.x,
        top: f.top + by.y,
        right: f.right + by.x,
        bottom: f.bottom + by.y,
    }
}

/// The least turn, down or up, at which `free` says so.
fn least(turn: f64, free: impl Fn(f64) -> bool) -> f64 {
    let mut y = turn;
    while y < FAR {
        if let Some(y) = [y, -y].into_iter().find(|y| free(*y)) {
            return y;
        }
        y += STEP;
    }
    FAR
}

/// Lays a tree.
pub(super) fn lay(node: &Node, m: &Measures) -> Lain {
    let mut lain = Lain::default();
    lain.taken
        .push(Frame::around(at(0.0, 0.0), at(0.0, 0.0)).grown(BESIDE / 2.0));
    let mut onwards = node.onwards.iter();
    let (wide, tall) = (m.words)(node.place, node.again);
    let Some((stretch, next)) = onwards.next() else {
        let words = at(BESIDE, -tall / 2.0);
        lain.spots.push(spot(node, words, Vec::new()));
        lain.taken
            .push(Frame::around(words, at(BESIDE + wide, tall / 2.0)));
        return lain;
    };
    let straight = (m.stretch)(*stretch).max(m.fan);
    lain.join(branch(*stretch, lay(next, m), (0.0, straight), m));
    let end = m.fan + m.tail;
    let words = Frame {
        left: end,
        top: -tall / 2.0,
        right: end + BESIDE + wide,
        bottom: tall / 2.0,
    };
    let y = least(m.turn.max(tall / 2.0), |y| {
        lain.clear(&[words], at(0.0, y), m.air)
    });
    let lead = vec![at(0.0, 0.0), at(m.fan, y), at(end, y)];
    lain.taken.push(shifted(words, at(0.0, y)));
    lain.turns.extend(slant(at(m.fan, y)));
    lain.spots
        .push(spot(node, at(end + BESIDE / 3.0, y - tall / 2.0), lead));
    for (stretch, next) in onwards {
        let block = lay(next, m);
        let at_turn = |y: f64| branch(*stretch, block.clone(), (y, (m.stretch)(*stretch)), m);
        let y = least(m.turn, |y| {
            lain.clear(&at_turn(y).taken, at(0.0, 0.0), m.air)
        });
        let branch = at_turn(y);
        lain.join(branch);
    }
    lain
}

/// How tall a piece of a turn is taken for, mm.
const PIECE: f64 = 4.0;

/// A turn from a first place, in boxes.
fn slant(end: Point) -> Vec<Frame> {
    let pieces = (end.y.abs() / PIECE).ceil().max(1.0);
    let part = |i: f64| at(end.x * i / pieces, end.y * i / pieces);
    let pieces = (0..pieces as usize).map(|i| i as f64);
    pieces
        .map(|i| Frame::around(part(i), part(i + 1.0)).grown(1.0))
        .collect()
}

fn spot(node: &Node, words: Point, lead: Vec<Point>) -> Spot {
    Spot {
        place: node.place,
        again: node.again,
        at: at(0.0, 0.0),
        words,
        lead,
    }
}

/// A stretch that turns off by so much, and what lies beyond it.
fn branch(stretch: StretchId, beyond: Lain, (y, long): (f64, f64), m: &Measures) -> Lain {
    let (over, above, below) = (m.along)(stretch);
    let (points, end, stretched) = if y == 0.0 {
        let end = at(long, 0.0);
        (vec![at(0.0, 0.0), end], end, false)
    } else {
        let slant = if m.whole { m.fan.hypot(y) } else { 0.0 };
        let level = (long - slant).max(m.fan / 2.0);
        let end = at(m.fan + level, y);
        let points = vec![at(0.0, 0.0), at(m.fan, y), end];
        (points, end, level > long - slant + 1e-9)
    };
    let mut lain = beyond.moved(end);
    let turns = std::mem::take(&mut lain.turns);
    lain.taken.extend(turns);
    if y != 0.0 {
        lain.turns.extend(slant(points[1]));
    }
    lain.taken.push(Frame {
        left: m.fan,
        top: y - above,
        right: end.x.max(m.fan + over),
        bottom: y + below,
    });
    lain.runs.push(Run {
        stretch,
        points,
        stretched,
    });
    lain
}
