//! From layout to SVG: lines first, symbols over them, words last.

use super::layout::{Ink, Layout, Line, part_of};
use super::symbol::Pen;
use crate::colour::{OUTLINE, TRACER, shade};
use crate::geometry::Frame;
use crate::svg::{Svg, number, points};
use crate::{Sheet, Title};

/// Width of a wire's colour inside its outline, and of its stripe, mm.
const CORE: f64 = 1.1;
const STRIPE: f64 = 0.5;

/// Dashes around what is in one place: longer than a link's.
const PLACE: &str = "3.5 1 0.5 1";

/// Draws one sheet.
pub(crate) fn sheet(layout: &Layout, title: &Title) -> Sheet {
    let name = format!("circuit-{}", layout.number);
    let heading = format!(
        "{}: circuit diagram, sheet {} of {}",
        title.title, layout.number, layout.of
    );
    let mut svg = Svg::new(&name, (layout.width, layout.height), &heading, &layout.told);
    let page = [
        ("width", number(layout.width)),
        ("height", number(layout.height)),
        ("fill", "white".to_owned()),
    ];
    svg.empty("rect", &page);
    for line in &layout.lines {
        stroke(&mut svg, line);
    }
    for symbol in &layout.symbols {
        symbol.shape.draw(&mut Pen::new(&mut svg, symbol.at));
    }
    for label in &layout.labels {
        label.draw(&mut svg);
    }
    Sheet {
        name,
        title: heading,
        svg: svg.finish(),
        width_mm: layout.width,
        height_mm: layout.height,
    }
}

/// How far the work has come with a wire or a part.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Shown {
    /// It was there before.
    Done,
    /// It is what this step brings.
    New,
    /// It comes later.
    ToCome,
}

/// Of what is to come so much is seen.
const GHOST: &str = "0.2";
/// Behind what is new.
const MARKER: &str = "#ffe680";
/// How far that reaches beyond it, mm.
const REACH: f64 = 1.2;

/// How far the work has come with what a name stands for.
fn come(name: &str, shown: &dyn Fn(&str) -> Shown) -> Option<Shown> {
    (!name.is_empty()).then(|| shown(part_of(name)))
}

/// Whether anything on a sheet is new.
pub(crate) fn any_new(layout: &Layout, shown: &dyn Fn(&str) -> Shown) -> bool {
    let new = |name: &str| come(name, shown) == Some(Shown::New);
    layout.lines.iter().any(|l| new(&l.name)) || layout.symbols.iter().any(|s| new(&s.name))
}

/// The circuits of one sheet, without what stands beside them, as far as they have come.
pub(crate) fn so_far(
    layout: &Layout,
    name: &str,
    heading: &str,
    shown: &dyn Fn(&str) -> Shown,
) -> Sheet {
    let part = layout.circuits();
    let inside = |x: f64| x < part.right;
    let lines = layout.lines.iter().filter(|l| inside(l.points[0].x));
    let labels = layout.labels.iter().filter(|l| inside(l.at.x));
    let new = |name: &str| come(name, shown) == Some(Shown::New);
    let mut svg = Svg::window(name, part, heading, &layout.told);
    svg.empty("rect", &rect(part, "white"));
    for f in lines
        .clone()
        .filter(|l| new(&l.name))
        .flat_map(|l| line_box(l, REACH))
    {
        svg.empty("rect", &rect(f, MARKER));
    }
    for symbol in layout.symbols.iter().filter(|s| new(&s.name)) {
        let f = symbol.shape.frame(symbol.at).grown(REACH);
        svg.empty("rect", &rect(f, MARKER));
    }
    for label in labels.clone().filter(|l| new(&l.of)) {
        svg.empty("rect", &rect(label.frame(), MARKER));
    }
    let ghost = |svg: &mut Svg, name: &str| {
        let to_come = name != "31" && come(name, shown) == Some(Shown::ToCome);
        let attributes = match to_come {
            true => vec![("opacity", GHOST.to_owned())],
            false => Vec::new(),
        };
        svg.open("g", &attributes);
    };
    for line in lines {
        ghost(&mut svg, &line.name);
        stroke(&mut svg, line);
        svg.close();
    }
    for symbol in &layout.symbols {
        ghost(&mut svg, &symbol.name);
        symbol.shape.draw(&mut Pen::new(&mut svg, symbol.at));
        svg.close();
    }
    for label in labels {
        ghost(&mut svg, &label.of);
        label.draw(&mut svg);
        svg.close();
    }
    Sheet {
        name: name.to_owned(),
        title: heading.to_owned(),
        svg: svg.finish(),
        width_mm: part.right - part.left,
        height_mm: part.bottom - part.top,
    }
}

/// The boxes behind a line's pieces, reaching so far beyond it.
pub(super) fn line_box(line: &Line, reach: f64) -> impl Iterator<Item = Frame> + '_ {
    let wide = line.ink.width() / 2.0 + reach;
    let pieces = line.points.windows(2);
    pieces.map(move |p| Frame::around(p[0], p[1]).grown(wide))
}

pub(super) fn rect(f: Frame, fill: &str) -> [(&'static str, String); 5] {
    [
        ("x", number(f.left)),
        ("y", number(f.top)),
        ("width", number(f.right - f.left)),
        ("height", number(f.bottom - f.top)),
        ("fill", fill.to_owned()),
    ]
}

pub(super) fn stroke(svg: &mut Svg, line: &Line) {
    let mut trace = |colour: &str, width: f64, dash: Option<&str>| {
        let mut attributes = vec![
            ("points", points(&line.points)),
            ("fill", "none".to_owned()),
            ("stroke", colour.to_owned()),
            ("stroke-width", number(width)),
        ];
        if let Some(dash) = dash {
            attributes.push(("stroke-dasharray", dash.to_owned()));
        }
        svg.empty("polyline", &attributes);
    };
    match &line.ink {
        Ink::Wire(colour) => {
            trace(OUTLINE, line.ink.width(), None);
            trace(shade(&colour.base), CORE, None);
            if let Some(stripe) = &colour.stripe {
                trace(shade(stripe), STRIPE, Some(TRACER));
            }
        }
        Ink::Link => trace("black", line.ink.width(), Some("1.5 1")),
        Ink::Place => trace("#777777", line.ink.width(), Some(PLACE)),
        Ink::Rule { thick: false } => trace("#777777", line.ink.width(), None),
        Ink::Inner | Ink::Rail | Ink::Body | Ink::Rule { .. } => {
            trace("black", line.ink.width(), None)
        }
    }
}
