//! The circuit diagram as it is in a state: what carries current stands out, relays and switches are drawn as they are
//! worked, loads that run glow. Every wire and part says its figures, and a switch can be pressed: it is a link.

use super::draw::{line_box, stroke};
use super::layout::{Ink, Layout, Line, Symbol, part_of};
use super::symbol::Pen;
pub use super::symbol::Worked;
use super::tips::Tip;
use crate::svg::{Svg, number};
use crate::{Sheet, Title};
use std::collections::BTreeSet;

/// What is to be seen of a wire or a part.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Going {
    /// Whether current flows in it.
    pub carries: bool,
    /// Whether a fault struck it.
    pub struck: bool,
    /// Whether it is to be found: somebody asked where it is.
    pub shown: bool,
    /// How it is worked.
    pub worked: Worked,
    /// Its figures in a sentence: "W1.7: 4.11 A, 0.12 V lost, 34 °C".
    pub says: String,
    /// Where a press leads, and what it does. It is framed, so that it is seen.
    pub press: Option<(String, String)>,
    /// Where more is told of it, and what. A press on it leads there if it does nothing else.
    pub more: Option<(String, String)>,
}

/// Behind what carries current.
const FLOW: &str = "#ffcf5c";
/// Behind what a fault struck.
const STRUCK: &str = "#ff9a8f";
/// Around what is to be found.
const SHOWN: &str = "#9fd3f0";
/// How far that reaches beyond it, mm.
const REACH: f64 = 0.9;
/// Around a load that runs, mm.
const GLOW: f64 = 2.2;
/// Around a switch, so that it is easily hit, mm.
const TOUCH: f64 = 0.5;

/// Draws one sheet.
pub(crate) fn sheet(
    layout: &Layout,
    title: &Title,
    going: &dyn Fn(&str) -> Going,
    tips: &[Tip],
) -> Sheet {
    let name = format!("live-{}", layout.number);
    let heading = format!("{}: sheet {} of {}", title.title, layout.number, layout.of);
    let part = layout.circuits();
    let inside = |x: f64| x < part.right;
    let mut svg = Svg::pressed(&name, part, &heading, &layout.told);
    let of = |name: &str| going(part_of(name));
    let lines = layout.lines.iter().filter(|l| inside(l.points[0].x));
    let flows = lines.clone().filter(|l| l.ink != Ink::Link);
    for (line, seen) in flows.map(|l| (l, of(&l.name))) {
        let fill = match () {
            () if seen.struck => STRUCK,
            () if seen.shown => SHOWN,
            () if seen.carries => FLOW,
            () => continue,
        };
        for f in line_box(line, REACH) {
            svg.empty("rect", &super::draw::rect(f, fill));
        }
    }
    for symbol in &layout.symbols {
        let seen = of(&symbol.name);
        if seen.struck || seen.shown {
            let f = symbol.shape.frame(symbol.at).grown(REACH);
            let fill = if seen.struck { STRUCK } else { SHOWN };
            svg.empty("rect", &super::draw::rect(f, fill));
        } else if seen.carries && symbol.shape.runs() {
            glow(&mut svg, symbol);
        }
    }
    let mut met = BTreeSet::new();
    for line in lines {
        let seen = of(&line.name);
        let first = met.insert(part_of(&line.name));
        group(&mut svg, &line.name, (&seen, first), |svg| {
            touch_line(svg, line, &seen);
            stroke(svg, line);
        });
    }
    for symbol in &layout.symbols {
        let seen = of(&symbol.name);
        // What can be pressed is reached at its symbol, whatever lines it has.
        let first = met.insert(part_of(&symbol.name)) || seen.press.is_some();
        group(&mut svg, &symbol.name, (&seen, first), |svg| {
            if seen.press.is_some() {
                touch(svg, symbol);
            }
            let mut pen = Pen::new(svg, symbol.at);
            symbol.shape.draw_worked(&mut pen, seen.worked);
        });
    }
    for label in layout.labels.iter().filter(|l| inside(l.at.x)) {
        label.draw(&mut svg);
    }
    super::tips::draw(&mut svg, layout, tips);
    Sheet {
        name,
        title: heading,
        svg: svg.finish(),
        width_mm: part.right - part.left,
        height_mm: part.bottom - part.top,
    }
}

/// A group that says what is in it; a link where it can be pressed. What is drawn in pieces is reached with the keyboard at
/// the first.
fn group(svg: &mut Svg, name: &str, (seen, first): (&Going, bool), draw: impl FnOnce(&mut Svg)) {
    if name.is_empty() || seen.says.is_empty() {
        return draw(svg);
    }
    let of = ("data-of", part_of(name).to_owned());
    let class = if seen.press.is_some() {
        "press"
    } else {
        "more"
    };
    match seen.press.as_ref().or(seen.more.as_ref()) {
        Some((href, what)) => {
            let mut link = vec![
                of,
                ("href", href.clone()),
                ("class", class.to_owned()),
                ("aria-label", what.clone()),
            ];
            if !first {
                link.push(("tabindex", "-1".to_owned()));
            }
            svg.open("a", &link);
        }
        None => svg.open("g", &[of]),
    }
    svg.text("title", &[], &seen.says);
    draw(svg);
    svg.close();
}

/// What can be hit beside a thin line, unseen.
fn touch_line(svg: &mut Svg, line: &Line, seen: &Going) {
    if seen.says.is_empty() {
        return;
    }
    for f in line_box(line, REACH) {
        let mut attributes = super::draw::rect(f, "none").to_vec();
        attributes.push(("pointer-events", "all".to_owned()));
        svg.empty("rect", &attributes);
    }
}

/// A frame around a switch, by which it is seen that it can be pressed.
fn touch(svg: &mut Svg, symbol: &Symbol) {
    let f = symbol.shape.frame(symbol.at).grown(TOUCH);
    let mut attributes = super::draw::rect(f, "white").to_vec();
    attributes.extend([
        ("rx", number(1.5)),
        ("stroke", "#2b5d7d".to_owned()),
        ("stroke-width", number(0.5)),
    ]);
    svg.empty("rect", &attributes);
}

fn glow(svg: &mut Svg, symbol: &Symbol) {
    let e = symbol.shape.extent();
    let attributes = [
        ("cx", number(symbol.at.x)),
        ("cy", number(symbol.at.y)),
        ("r", number(e.left.min(e.right) + GLOW)),
        ("fill", FLOW.to_owned()),
    ];
    svg.empty("circle", &attributes);
}
