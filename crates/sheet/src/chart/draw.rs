//! From a chart to SVG: tints first, then rulings, what hides them, curves and marks, words last.

use super::{Area, Band, Chart, Line, Mark, REACH, Sign};
use crate::Sheet;
use crate::geometry::{Point, at};
use crate::svg::{Svg, number, points};

/// REACH · cos 45°.
const SLANT: f64 = REACH * 0.707;
/// Half the side of a square, mm.
const SIDE: f64 = 1.3;

/// Draws the sheet; `heading` is its name for screen readers.
pub(super) fn sheet(chart: &Chart, name: &str, title: String, heading: &str) -> Sheet {
    let mut svg = Svg::new(name, (chart.width, chart.height), heading, &chart.told);
    let page = [
        ("width", number(chart.width)),
        ("height", number(chart.height)),
        ("fill", "white".to_owned()),
    ];
    svg.empty("rect", &page);
    let (hiding, tints): (Vec<&Band>, Vec<&Band>) = chart.bands.iter().partition(|b| b.fill.over);
    tints.into_iter().for_each(|b| band(&mut svg, b));
    chart.areas.iter().for_each(|a| area(&mut svg, a));
    let (curves, rules): (Vec<&Line>, Vec<&Line>) = chart.lines.iter().partition(|l| l.ink.over);
    rules.into_iter().for_each(|l| line(&mut svg, l));
    hiding.into_iter().for_each(|b| band(&mut svg, b));
    curves.into_iter().for_each(|l| line(&mut svg, l));
    chart.marks.iter().for_each(|m| mark(&mut svg, m));
    chart.labels.iter().for_each(|l| l.draw(&mut svg));
    chart.uprights.iter().for_each(|u| u.draw(&mut svg));
    Sheet {
        name: name.to_owned(),
        title,
        svg: svg.finish(),
        width_mm: chart.width,
        height_mm: chart.height,
    }
}

fn band(svg: &mut Svg, band: &Band) {
    let f = band.frame;
    let attributes = [
        ("x", number(f.left)),
        ("y", number(f.top)),
        ("width", number(f.right - f.left)),
        ("height", number(f.bottom - f.top)),
        ("fill", band.fill.colour.to_owned()),
    ];
    svg.empty("rect", &attributes);
}

fn area(svg: &mut Svg, area: &Area) {
    let attributes = [
        ("points", points(&area.points)),
        ("fill", area.fill.colour.to_owned()),
    ];
    svg.empty("polygon", &attributes);
}

fn line(svg: &mut Svg, line: &Line) {
    let mut attributes = vec![
        ("points", points(&line.points)),
        ("fill", "none".to_owned()),
        ("stroke", line.ink.colour.to_owned()),
        ("stroke-width", number(line.ink.width)),
        ("stroke-linejoin", "round".to_owned()),
    ];
    let dash = line.ink.dash.map(|d| ("stroke-dasharray", d.to_owned()));
    attributes.extend(dash);
    svg.empty("polyline", &attributes);
}

/// A mark; those that lie on curves or bars are filled white, so that what is under them does not hide them.
fn mark(svg: &mut Svg, mark: &Mark) {
    match mark.sign {
        Sign::CrossedRing => {
            circle(svg, mark.at, (REACH, "white", 0.35));
            cross(svg, mark.at, (SLANT, 0.35));
        }
        Sign::Diamond => {
            let around = [(0.0, -REACH), (REACH, 0.0), (0.0, REACH), (-REACH, 0.0)];
            polygon(svg, mark.at, &around, "white");
        }
        Sign::Ring => circle(svg, mark.at, (1.15, "white", 0.45)),
        Sign::Disc => circle(svg, mark.at, (1.2, "black", 0.35)),
        Sign::Cross => cross(svg, mark.at, (1.1, 0.6)),
        Sign::Square => polygon(svg, mark.at, &square(), "white"),
        Sign::FullSquare => polygon(svg, mark.at, &square(), "black"),
        Sign::HalfSquare => {
            polygon(svg, mark.at, &square(), "white");
            let half = [(-SIDE, SIDE), (SIDE, -SIDE), (SIDE, SIDE)];
            polygon(svg, mark.at, &half, "black");
        }
    }
}

fn square() -> [(f64, f64); 4] {
    [(-SIDE, -SIDE), (SIDE, -SIDE), (SIDE, SIDE), (-SIDE, SIDE)]
}

fn ink(fill: &str, width: f64) -> [(&'static str, String); 3] {
    [
        ("fill", fill.to_owned()),
        ("stroke", "black".to_owned()),
        ("stroke-width", number(width)),
    ]
}

fn circle(svg: &mut Svg, Point { x, y }: Point, (reach, fill, width): (f64, &str, f64)) {
    let place = [("cx", number(x)), ("cy", number(y)), ("r", number(reach))];
    svg.empty("circle", &[&place[..], &ink(fill, width)].concat());
}

fn cross(svg: &mut Svg, Point { x, y }: Point, (d, width): (f64, f64)) {
    for (from, to) in [((-d, -d), (d, d)), ((-d, d), (d, -d))] {
        let ends = [at(x + from.0, y + from.1), at(x + to.0, y + to.1)];
        let stroke = [("points", points(&ends))];
        svg.empty("polyline", &[&stroke[..], &ink("none", width)].concat());
    }
}

fn polygon(svg: &mut Svg, Point { x, y }: Point, around: &[(f64, f64)], fill: &str) {
    let corners: Vec<Point> = around.iter().map(|(dx, dy)| at(x + dx, y + dy)).collect();
    let place = [("points", points(&corners))];
    svg.empty("polygon", &[&place[..], &ink(fill, 0.35)].concat());
}
