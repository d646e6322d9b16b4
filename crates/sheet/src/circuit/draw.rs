//! From layout to SVG: lines first, symbols over them, words last.

use super::layout::{Ink, Layout, Line};
use super::symbol::Pen;
use crate::colour::{OUTLINE, shade};
use crate::svg::{Svg, number, points};
use crate::{Sheet, Title};

/// Width of a wire's colour inside its outline, and of its stripe, mm.
const CORE: f64 = 1.1;
const STRIPE: f64 = 0.45;

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

fn stroke(svg: &mut Svg, line: &Line) {
    let mut trace = |colour: &str, width: f64, dash: bool| {
        let mut attributes = vec![
            ("points", points(&line.points)),
            ("fill", "none".to_owned()),
            ("stroke", colour.to_owned()),
            ("stroke-width", number(width)),
        ];
        if dash {
            attributes.push(("stroke-dasharray", "1.5 1".to_owned()));
        }
        svg.empty("polyline", &attributes);
    };
    match &line.ink {
        Ink::Wire(colour) => {
            trace(OUTLINE, line.ink.width(), false);
            trace(shade(&colour.base), CORE, false);
            if let Some(stripe) = &colour.stripe {
                trace(shade(stripe), STRIPE, false);
            }
        }
        Ink::Link => trace("black", line.ink.width(), true),
        Ink::Rule { thick: false } => trace("#777777", line.ink.width(), false),
        Ink::Inner | Ink::Rail | Ink::Body | Ink::Rule { .. } => {
            trace("black", line.ink.width(), false)
        }
    }
}
