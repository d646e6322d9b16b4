//! Where the tips of a meter go on the circuit diagram, and its clamp: a mark at the pin, where the wire that was asked for
//! leaves its part, lettered so that it is told apart without colour.

use super::layout::{Layout, part_of};
use crate::geometry::Point;
use crate::svg::{Svg, number};

/// Something that a meter is held to.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Tip {
    /// The part whose pin it is; none for a clamp around a wire.
    pub part: Option<String>,
    /// The wires on that pin, or the one that is clamped.
    pub wires: Vec<String>,
    /// Whether it is at the part's lower end, where no wire tells.
    pub low: bool,
    /// What stands in the mark: "R" for red, "B" for black, "A" for a clamp.
    pub letter: &'static str,
}

/// Radius of a mark, mm.
const RADIUS: f64 = 2.1;
/// Height of its letter, mm.
const LETTER: f64 = 2.6;

/// Draws the marks of those tips that have a place on this sheet.
pub(super) fn draw(svg: &mut Svg, layout: &Layout, tips: &[Tip]) {
    let mut placed: Vec<Point> = Vec::new();
    for tip in tips {
        let Some(mut at) = place(layout, tip) else {
            continue;
        };
        // Two on one spot stand side by side.
        while placed
            .iter()
            .any(|p| (p.x - at.x).hypot(p.y - at.y) < 2.0 * RADIUS)
        {
            at.x += 2.2 * RADIUS;
        }
        placed.push(at);
        svg.empty(
            "circle",
            &[
                ("cx", number(at.x)),
                ("cy", number(at.y)),
                ("r", number(RADIUS)),
                ("fill", "white".to_owned()),
                ("stroke", "black".to_owned()),
                ("stroke-width", number(0.5)),
            ],
        );
        let letter = [
            ("x", number(at.x)),
            ("y", number(at.y + LETTER * 0.36)),
            ("text-anchor", "middle".to_owned()),
            ("font-size", number(LETTER)),
            ("font-weight", "bold".to_owned()),
        ];
        svg.text("text", &letter, tip.letter);
    }
}

/// Where a tip goes: the end of a wire that lies nearest to its part; without such a wire the part itself.
fn place(layout: &Layout, tip: &Tip) -> Option<Point> {
    let lines = layout
        .lines
        .iter()
        .filter(|l| tip.wires.iter().any(|w| w == part_of(&l.name)));
    let Some(part) = &tip.part else {
        let longest = lines.max_by(|a, b| length(&a.points).total_cmp(&length(&b.points)))?;
        return middle(&longest.points);
    };
    let symbols: Vec<_> = layout
        .symbols
        .iter()
        .filter(|s| part_of(&s.name) == part)
        .collect();
    let off = |p: &Point| -> f64 {
        let to = |s: &&super::layout::Symbol| {
            let f = s.shape.frame(s.at);
            let dx = (f.left - p.x).max(p.x - f.right).max(0.0);
            let dy = (f.top - p.y).max(p.y - f.bottom).max(0.0);
            dx.hypot(dy)
        };
        // A rail is its part too.
        let rails = layout.lines.iter().filter(|l| part_of(&l.name) == part);
        let legs = rails.flat_map(|l| l.points.windows(2));
        let to_rail = legs.map(|w| to_leg(p, w)).fold(f64::INFINITY, f64::min);
        symbols.iter().map(to).fold(to_rail, f64::min)
    };
    let ends = lines.flat_map(|l| l.points.first().into_iter().chain(l.points.last()));
    let nearest = ends.copied().min_by(|a, b| off(a).total_cmp(&off(b)));
    let own = || {
        let line = layout.lines.iter().find(|l| part_of(&l.name) == part);
        let on_line = line.and_then(|l| l.points.first().copied());
        let end = symbols.first().map(|s| {
            let f = s.shape.frame(s.at);
            let y = if tip.low { f.bottom } else { f.top };
            Point { x: s.at.x, y }
        });
        end.or(on_line)
    };
    nearest
        .filter(|p| symbols.is_empty() || off(p) < FAR)
        .or_else(own)
}

/// An end that is further from its part belongs to another, mm.
const FAR: f64 = 12.0;

/// How far a point is from a leg of a line.
fn to_leg(p: &Point, leg: &[Point]) -> f64 {
    let (a, b) = (leg[0], leg[1]);
    let (dx, dy) = (b.x - a.x, b.y - a.y);
    let along = ((p.x - a.x) * dx + (p.y - a.y) * dy) / (dx * dx + dy * dy).max(1e-9);
    let t = along.clamp(0.0, 1.0);
    (p.x - a.x - t * dx).hypot(p.y - a.y - t * dy)
}

fn length(points: &[Point]) -> f64 {
    let each = points.windows(2);
    each.map(|w| (w[1].x - w[0].x).hypot(w[1].y - w[0].y)).sum()
}

fn middle(points: &[Point]) -> Option<Point> {
    let legs = points.windows(2);
    let longest = legs.max_by(|a, b| length(a).total_cmp(&length(b)))?;
    Some(Point {
        x: 0.5 * (longest[0].x + longest[1].x),
        y: 0.5 * (longest[0].y + longest[1].y),
    })
}
