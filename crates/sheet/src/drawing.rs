//! A drawing before it is SVG: strokes, areas and labels with their places, in drawing order, so that overlaps can be
//! found, and windows of it cut out, before a line is written.

use crate::Sheet;
use crate::colour::{OUTLINE, TRACER, shade};
use crate::geometry::{Frame, Point, at};
use crate::label::Label;
use crate::svg::{Svg, number, points};
use crate::title::TitleBlock;
use loom::Colour;

/// How a line is drawn.
#[derive(Clone, Debug, PartialEq)]
pub(crate) struct Stroke {
    pub colour: &'static str,
    /// mm.
    pub width: f64,
    /// Broken, by the lengths of dash and gap.
    pub dash: Option<&'static str>,
}

impl Stroke {
    pub const fn solid(colour: &'static str, width: f64) -> Self {
        Self {
            colour,
            width,
            dash: None,
        }
    }

    pub const fn broken(colour: &'static str, width: f64) -> Self {
        Self {
            colour,
            width,
            dash: Some("1.5 1"),
        }
    }
}

/// Ink of words and symbols.
pub(crate) const INK: Stroke = Stroke::solid("black", 0.35);
/// Ink of rulings.
pub(crate) const FAINT: Stroke = Stroke::solid("#777777", 0.25);

/// One thing drawn.
#[derive(Clone, Debug, PartialEq)]
pub(crate) enum Mark {
    /// A line through points.
    Line { points: Vec<Point>, stroke: Stroke },
    /// A closed outline, filled.
    Area {
        points: Vec<Point>,
        fill: &'static str,
        stroke: Stroke,
    },
    /// A circle, filled.
    Circle {
        centre: Point,
        radius: f64,
        fill: &'static str,
        stroke: Stroke,
    },
    /// Words.
    Words(Label),
}

/// A drawing.
#[derive(Clone, Debug, Default)]
pub(crate) struct Drawing {
    pub marks: Vec<Mark>,
    /// What is on it, for screen readers.
    pub told: String,
}

/// Core and stripe of a wire that is drawn this wide, as parts of it.
const CORE: f64 = 0.73;
const STRIPE: f64 = 0.33;

impl Drawing {
    pub fn line(&mut self, points: Vec<Point>, stroke: Stroke) {
        self.marks.push(Mark::Line { points, stroke });
    }

    /// A rectangle.
    pub fn frame(&mut self, f: Frame, fill: &'static str, stroke: Stroke) {
        let points = vec![
            at(f.left, f.top),
            at(f.right, f.top),
            at(f.right, f.bottom),
            at(f.left, f.bottom),
        ];
        self.marks.push(Mark::Area {
            points,
            fill,
            stroke,
        });
    }

    /// A closed outline, filled.
    pub fn area(&mut self, points: Vec<Point>, fill: &'static str, stroke: Stroke) {
        self.marks.push(Mark::Area {
            points,
            fill,
            stroke,
        });
    }

    pub fn circle(&mut self, centre: Point, radius: f64, fill: &'static str, stroke: Stroke) {
        self.marks.push(Mark::Circle {
            centre,
            radius,
            fill,
            stroke,
        });
    }

    pub fn words(&mut self, label: Label) {
        self.marks.push(Mark::Words(label));
    }

    /// A piece of wire in its own colour.
    pub fn wire(&mut self, through: &[Point], colour: &Colour, width: f64) {
        let mut trace = |colour: &'static str, width: f64, dash| {
            self.marks.push(Mark::Line {
                points: through.to_vec(),
                stroke: Stroke {
                    colour,
                    width,
                    dash,
                },
            });
        };
        trace(OUTLINE, width, None);
        trace(shade(&colour.base), width * CORE, None);
        if let Some(stripe) = &colour.stripe {
            trace(shade(stripe), width * STRIPE, Some(TRACER));
        }
    }

    /// The border, and a title block of this width in its lower right corner.
    pub fn framed(&mut self, inner: Frame, block: &TitleBlock, wide: f64) {
        let thick = || Stroke::solid("black", 0.7);
        self.frame(inner, "none", thick());
        let corner = Frame {
            left: inner.right - wide,
            ..inner
        };
        let (labels, rules) = block.place(corner);
        labels.into_iter().for_each(|label| self.words(label));
        for rule in rules {
            let stroke = if rule.thick { thick() } else { FAINT };
            self.line(rule.points, stroke);
        }
    }

    /// All of it as one sheet of this size.
    pub fn sheet(&self, name: &str, heading: &str, (width, height): (f64, f64)) -> Sheet {
        self.window(
            name,
            heading,
            at(0.0, 0.0),
            (width, height),
            &Self::default(),
        )
    }

    /// What of it lies in a window, as a sheet as large as that, with something drawn over it in the window's own place.
    pub fn window(
        &self,
        name: &str,
        heading: &str,
        corner: Point,
        (width, height): (f64, f64),
        over: &Self,
    ) -> Sheet {
        let mut svg = Svg::new(name, (width, height), heading, &self.told);
        let page = [
            ("width", number(width)),
            ("height", number(height)),
            ("fill", "white".to_owned()),
        ];
        svg.empty("rect", &page);
        let window = Frame {
            left: corner.x,
            top: corner.y,
            right: corner.x + width,
            bottom: corner.y + height,
        };
        for mark in self.marks.iter().filter(|m| m.frame().meets(window)) {
            mark.draw(&mut svg, at(-corner.x, -corner.y));
        }
        for mark in &over.marks {
            mark.draw(&mut svg, at(0.0, 0.0));
        }
        Sheet {
            name: name.to_owned(),
            title: heading.to_owned(),
            svg: svg.finish(),
            width_mm: width,
            height_mm: height,
        }
    }
}

fn moved(points: &[Point], by: Point) -> Vec<Point> {
    let each = points.iter();
    each.map(|p| at(p.x + by.x, p.y + by.y)).collect()
}

impl Mark {
    /// The box it covers, with a little of its stroke.
    pub fn frame(&self) -> Frame {
        let around = |points: &[Point], width: f64| {
            let mut f = Frame::around(points[0], points[0]);
            for p in points {
                f.left = f.left.min(p.x);
                f.right = f.right.max(p.x);
                f.top = f.top.min(p.y);
                f.bottom = f.bottom.max(p.y);
            }
            f.grown(width / 2.0 + 0.01)
        };
        match self {
            Self::Line { points, stroke } | Self::Area { points, stroke, .. } => {
                around(points, stroke.width)
            }
            Self::Circle {
                centre,
                radius,
                stroke,
                ..
            } => around(&[*centre], 2.0 * radius + stroke.width),
            Self::Words(label) => label.frame(),
        }
    }

    /// The same, moved.
    pub fn moved(&self, by: Point) -> Self {
        let mut mark = self.clone();
        match &mut mark {
            Self::Line { points, .. } | Self::Area { points, .. } => *points = moved(points, by),
            Self::Circle { centre, .. } => *centre = at(centre.x + by.x, centre.y + by.y),
            Self::Words(label) => *label = label.moved(by),
        }
        mark
    }

    fn draw(&self, svg: &mut Svg, by: Point) {
        let stroked = |stroke: &Stroke| {
            let mut attributes = vec![
                ("stroke", stroke.colour.to_owned()),
                ("stroke-width", number(stroke.width)),
            ];
            if let Some(dash) = stroke.dash {
                attributes.push(("stroke-dasharray", dash.to_owned()));
            }
            attributes
        };
        match self {
            Self::Line { points: p, stroke } => {
                let mut attributes = vec![
                    ("points", points(&moved(p, by))),
                    ("fill", "none".to_owned()),
                ];
                attributes.extend(stroked(stroke));
                svg.empty("polyline", &attributes);
            }
            Self::Area {
                points: p,
                fill,
                stroke,
            } => {
                let mut attributes = vec![
                    ("points", points(&moved(p, by))),
                    ("fill", (*fill).to_owned()),
                ];
                attributes.extend(stroked(stroke));
                svg.empty("polygon", &attributes);
            }
            Self::Circle {
                centre,
                radius,
                fill,
                stroke,
            } => {
                let mut attributes = vec![
                    ("cx", number(centre.x + by.x)),
                    ("cy", number(centre.y + by.y)),
                    ("r", number(*radius)),
                    ("fill", (*fill).to_owned()),
                ];
                attributes.extend(stroked(stroke));
                svg.empty("circle", &attributes);
            }
            Self::Words(label) => label.moved(by).draw(svg),
        }
    }
}

/// Labels that share a place with another, or leave an edge.
#[cfg(test)]
pub(crate) fn overlaps(drawing: &Drawing, edge: Frame) -> Vec<String> {
    let labels: Vec<&Label> = drawing
        .marks
        .iter()
        .filter_map(|m| match m {
            Mark::Words(label) => Some(label),
            _ => None,
        })
        .collect();
    let mut found = Vec::new();
    for (i, label) in labels.iter().enumerate() {
        let frame = label.frame().grown(-0.02);
        if !edge.holds(frame) {
            found.push(format!("“{}” leaves the edge", label.text));
        }
        let met = labels[i + 1..].iter().filter(|o| o.frame().meets(frame));
        found.extend(met.map(|o| format!("“{}” lies on “{}”", label.text, o.text)));
    }
    for mark in &drawing.marks {
        let Mark::Line { points, .. } = mark else {
            continue;
        };
        let on = |f: Frame| points.windows(2).any(|p| crosses(p[0], p[1], f));
        let met = labels.iter().filter(|l| on(l.frame().grown(-0.02)));
        found.extend(met.map(|l| format!("a line runs through “{}”", l.text)));
    }
    found
}

/// Whether a straight line runs through a box.
#[cfg(test)]
fn crosses(a: Point, b: Point, f: Frame) -> bool {
    let steps = ((b.x - a.x).hypot(b.y - a.y) / 0.3).ceil().max(1.0) as usize;
    let mut each = (0..=steps).map(|i| {
        let part = i as f64 / steps as f64;
        at(a.x + (b.x - a.x) * part, a.y + (b.y - a.y) * part)
    });
    each.any(|p| f.left < p.x && p.x < f.right && f.top < p.y && p.y < f.bottom)
}
