//! Where the loom runs: places and stretches on the vehicle seen from above, its zones tinted by heat, hatched where wet.
//!
//! | file | step |
//! |---|---|
//! | `outline` | shapes of vehicles |
//! | `spots` | where places stand on one |
//! | `names` | their names round it, each with a line to its place |

mod names;
mod outline;
mod spots;

#[cfg(test)]
mod tests;

use crate::drawing::{Drawing, FAINT, INK, Stroke};
use crate::geometry::{Frame, Point, at, border};
use crate::label::{Align, Label};
use crate::text::{ASCENT, LEADING, SIZE, width, wrap};
use crate::title::TitleBlock;
use crate::{Sheet, Title};
use loom::{Loom, LoomPlace};
use outline::{Shape, guessed};
use plan::Outline;
use quantity::{Quantity, in_celsius};

/// The sheet, A4 lying across, mm.
const SIZE_MM: (f64, f64) = (297.0, 210.0);
/// Length of the vehicle on it, mm.
const LONG: f64 = 225.0;
const TITLE_WIDE: f64 = 90.0;
const AIR: f64 = 5.0;

/// Tints by heat: up to which temperature, °C.
const TINTS: [(f64, &str, &str); 4] = [
    (50.0, "#e3eef6", "to 50 °C"),
    (65.0, "#fdf1d3", "to 65 °C"),
    (80.0, "#fbdcc0", "to 80 °C"),
    (f64::INFINITY, "#f6c3bb", "hotter"),
];

fn tint(celsius: f64) -> &'static str {
    let found = TINTS.iter().find(|(most, ..)| celsius <= *most);
    found.map_or(TINTS[TINTS.len() - 1].1, |(_, tint, _)| tint)
}

/// Where the loom runs. `said`: the vehicle's shape, if the plan says; else its words decide.
pub fn route(loom: &Loom, title: &Title, said: Option<Outline>) -> Sheet {
    let mut page = drawn(loom, title, said);
    page.told = told(loom);
    let heading = format!("{}: where it runs", title.title);
    page.sheet("route-1", &heading, SIZE_MM)
}

/// Where places stand on that sheet, so that they can be dragged.
#[derive(Clone, Debug)]
pub struct Spots {
    /// The vehicle's left and upper edge, its length and width on the sheet, mm.
    pub vehicle: [f64; 4],
    /// Places by name, with their points on the sheet, mm.
    pub places: Vec<(String, [f64; 2])>,
}

/// Where places stand on the sheet that [`route`] gives.
pub fn route_spots(loom: &Loom, title: &Title, said: Option<Outline>) -> Spots {
    let laid = Laid::new(title, said);
    let spots = spots::spots(loom, laid.shape).into_iter();
    let named = spots.zip(&loom.places).map(|(spot, place)| {
        let p = laid.to(spot);
        (place.name.clone(), [p.x, p.y])
    });
    Spots {
        vehicle: [laid.left, laid.top, LONG, laid.wide],
        places: named.collect(),
    }
}

/// How the vehicle lies on the sheet.
struct Laid {
    shape: &'static Shape,
    inner: Frame,
    block: TitleBlock,
    left: f64,
    top: f64,
    wide: f64,
}

impl Laid {
    fn new(title: &Title, said: Option<Outline>) -> Self {
        let shape = Shape::of(said.unwrap_or_else(|| guessed(&title.vehicle)));
        let inner = border(SIZE_MM.0, SIZE_MM.1);
        let block = TitleBlock::new(title, TITLE_WIDE, "Where it runs", String::new());
        let foot = block.height() + AIR;
        let wide = LONG / shape.slender;
        Self {
            shape,
            left: (inner.left + inner.right - LONG) / 2.0,
            top: (inner.top + inner.bottom - foot - wide) / 2.0,
            inner,
            block,
            wide,
        }
    }

    /// A spot of the vehicle on the sheet.
    fn to(&self, [x, y]: [f64; 2]) -> Point {
        at(self.left + x * LONG, self.top + y * self.wide)
    }
}

fn drawn(loom: &Loom, title: &Title, said: Option<Outline>) -> Drawing {
    let laid = Laid::new(title, said);
    let to = |spot| laid.to(spot);
    let Laid {
        shape,
        inner,
        block,
        top,
        wide,
        ..
    } = &laid;
    let (shape, inner, top, wide) = (*shape, *inner, *top, *wide);
    let foot = block.height() + AIR;
    let mut page = Drawing::default();
    zones(loom, shape, &to, &mut page);
    hull(shape, &to, &mut page);
    let spots: Vec<Point> = spots::spots(loom, shape).into_iter().map(to).collect();
    stretches(loom, &spots, &mut page);
    let room = Frame {
        left: inner.left + 2.0,
        top: inner.top + 2.0,
        right: inner.right - 2.0,
        bottom: inner.bottom - foot,
    };
    names::names(loom, &spots, (room, top, top + wide), &mut page);
    page.framed(inner, block, TITLE_WIDE);
    legend(inner, &mut page);
    page
}

/// Tints and hatches each zone that has a place.
fn zones(loom: &Loom, shape: &Shape, to: &dyn Fn([f64; 2]) -> Point, page: &mut Drawing) {
    let mut seen = Vec::new();
    // The wide ones first, so that those within them are seen.
    let mut places: Vec<&LoomPlace> = loom.places.iter().collect();
    let reach = |p: &&LoomPlace| {
        let (from, to) = shape.zone(p.zone);
        ((to - from) * -1000.0) as i64
    };
    places.sort_by_key(reach);
    for place in places {
        let (from, end) = shape.zone(place.zone);
        if seen.contains(&place.zone) {
            continue;
        }
        seen.push(place.zone);
        let mine = loom.places.iter().filter(|p| p.zone == place.zone);
        let hottest = mine.clone().map(|p| in_celsius(p.heat)).fold(0.0, f64::max);
        let wet = mine.clone().any(|p| p.wet);
        let part = |i: usize| from + (end - from) * i as f64 / PIECES as f64;
        let edge = |i: usize| {
            let (a, b) = shape.across(part(i));
            (to([part(i), a + INSIDE]), to([part(i), b - INSIDE]))
        };
        let edges: Vec<(Point, Point)> = (0..=PIECES).map(edge).collect();
        let mut points: Vec<Point> = edges.iter().map(|(a, _)| *a).collect();
        points.extend(edges.iter().rev().map(|(_, b)| *b));
        page.area(points, tint(hottest), Stroke::solid("none", 0.0));
        if wet {
            hatch(&edges, page);
        }
    }
}

/// A zone is drawn in so many pieces along.
const PIECES: usize = 24;
/// So far within the hull, as a part of the width.
const INSIDE: f64 = 0.04;
/// Between lines of a hatching, mm.
const HATCH: f64 = 5.0;

/// Slanting lines between an upper and a lower edge, both at the same steps along.
fn hatch(edges: &[(Point, Point)], page: &mut Drawing) {
    let (left, right) = (edges[0].0.x, edges[edges.len() - 1].0.x);
    let step = (right - left) / (edges.len() - 1) as f64;
    let inside = |p: Point| {
        let i = ((p.x - left) / step).clamp(0.0, (edges.len() - 1) as f64) as usize;
        let next = (i + 1).min(edges.len() - 1);
        let part = (p.x - left) / step - i as f64;
        let between = |a: f64, b: f64| a + (b - a) * part;
        let top = between(edges[i].0.y, edges[next].0.y);
        let bottom = between(edges[i].1.y, edges[next].1.y);
        (left..=right).contains(&p.x) && (top..=bottom).contains(&p.y)
    };
    let top = edges.iter().map(|(a, _)| a.y).fold(f64::INFINITY, f64::min);
    let bottom = edges.iter().map(|(_, b)| b.y).fold(0.0, f64::max);
    let stroke = || Stroke::solid("#8fb3cf", 0.2);
    let mut x = left - (bottom - top);
    while x < right {
        // Half a millimetre at a time; what lies within is drawn.
        let steps = ((bottom - top) * 2.0) as usize;
        let mut run: Vec<Point> = Vec::new();
        for i in 0..=steps {
            let p = at(x + i as f64 / 2.0, bottom - i as f64 / 2.0);
            if inside(p) {
                run.push(p);
            } else if run.len() > 1 {
                page.line(vec![run[0], run[run.len() - 1]], stroke());
                run.clear();
            } else {
                run.clear();
            }
        }
        if run.len() > 1 {
            page.line(vec![run[0], run[run.len() - 1]], stroke());
        }
        x += HATCH;
    }
}

fn hull(shape: &Shape, to: &dyn Fn([f64; 2]) -> Point, page: &mut Drawing) {
    for [a, b, c, d] in shape.wheels {
        let frame = Frame::around(to([*a, *b]), to([*c, *d]));
        page.frame(frame, "#bbbbbb", Stroke::solid("#777777", 0.3));
    }
    let mut line = |points: &[(f64, f64)], closed: bool, stroke: Stroke| {
        let mut points: Vec<Point> = points.iter().map(|(x, y)| to([*x, *y])).collect();
        if closed {
            points.push(points[0]);
        }
        page.line(points, stroke);
    };
    line(shape.hull, true, Stroke::solid("#555555", 0.6));
    for inside in shape.lines {
        line(inside, false, Stroke::solid("#888888", 0.35));
    }
}

/// The stretches, their lengths beside their middles where there is room.
fn stretches(loom: &Loom, spots: &[Point], page: &mut Drawing) {
    let mut taken: Vec<Frame> = spots
        .iter()
        .map(|p| Frame::around(*p, *p).grown(2.5))
        .collect();
    let used = || loom.stretches.iter().filter(|s| !s.wires.is_empty());
    let ends = |s: &loom::LoomStretch| s.ends.map(|p| spots[p.0 as usize]);
    for s in used() {
        let wide = 0.8 + 0.12 * s.wires.len().min(20) as f64;
        page.line(ends(s).to_vec(), Stroke::solid("#333333", wide));
    }
    for s in used() {
        let [a, b] = ends(s);
        let words = s.length.show();
        let half = width(&words, SIZE) / 2.0 + 0.6;
        let tall = SIZE * (ASCENT + 0.35);
        let here = |part: f64, (dx, dy): (f64, f64)| {
            let middle = at(a.x + (b.x - a.x) * part + dx, a.y + (b.y - a.y) * part + dy);
            Frame::around(
                at(middle.x - half, middle.y - tall / 2.0),
                at(middle.x + half, middle.y + tall / 2.0),
            )
        };
        let beside = [
            (0.0, 0.0),
            (0.0, -5.0),
            (0.0, 5.0),
            (half + 2.0, 0.0),
            (-half - 2.0, 0.0),
        ];
        let parts = [0.5, 0.4, 0.6, 0.3, 0.7];
        let tries = beside
            .iter()
            .flat_map(|by| parts.iter().map(move |p| (*p, *by)));
        let free = |f: &Frame| !taken.iter().any(|t| t.meets(*f));
        let Some(frame) = tries.map(|(part, by)| here(part, by)).find(free) else {
            continue;
        };
        page.frame(frame, "white", Stroke::solid("none", 0.0));
        let place = at(
            (frame.left + frame.right) / 2.0,
            frame.top + SIZE * ASCENT + 0.2,
        );
        page.words(Label::new(words, SIZE, place, Align::Middle));
        taken.push(frame);
    }
    for p in spots {
        page.circle(*p, 1.6, "white", INK);
    }
}

const SAYS: &str = "Seen from above, front to the left; no vehicle there is. Where the plan does not say, a place stands where its zone and its name suggest.";

fn legend(inner: Frame, page: &mut Drawing) {
    let mut x = inner.left + AIR;
    let y = inner.bottom - AIR - 3.0;
    let mut swatch = |fill: &'static str, wet: bool, words: &str, page: &mut Drawing| {
        let frame = Frame::around(at(x, y), at(x + 8.0, y + 4.0));
        page.frame(frame, fill, FAINT);
        if wet {
            let edges = [frame.left, frame.right].map(|x| (at(x, frame.top), at(x, frame.bottom)));
            hatch(&edges, page);
        }
        let place = at(x + 10.0, y + SIZE * ASCENT + 0.4);
        page.words(Label::new(words.to_owned(), SIZE, place, Align::Start));
        x += 13.0 + width(words, SIZE);
    };
    for (_, fill, words) in TINTS {
        swatch(fill, false, words, page);
    }
    swatch("white", true, "water gets there", page);
    let lines = wrap(
        SAYS,
        SIZE,
        inner.right - inner.left - TITLE_WIDE - 2.0 * AIR,
    );
    let mut y = y - 2.0 - (lines.len() as f64) * SIZE * LEADING + SIZE * ASCENT;
    for line in lines {
        page.words(Label::new(
            line,
            SIZE,
            at(inner.left + AIR, y),
            Align::Start,
        ));
        y += SIZE * LEADING;
    }
}

fn told(loom: &Loom) -> String {
    let used = loom.stretches.iter().filter(|s| !s.wires.is_empty());
    let each = used.map(|s| {
        let [a, b] = s.ends.map(|p| loom.place(p).name.as_str());
        format!(
            "From {a} to {b}, {}, {} wires.",
            s.length.show(),
            s.wires.len()
        )
    });
    each.collect::<Vec<_>>().join(" ")
}
