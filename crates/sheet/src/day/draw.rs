//! From a chart to SVG: tints first, then lines, bars, curves and marks, words last.

use super::{Band, Chart, Fill, Ink, Line, Mark, REACH, Sign};
use crate::geometry::{Point, at};
use crate::svg::{Svg, number, points};
use crate::{Sheet, Title};
use plan::SupplyState;

/// Draws the sheet.
pub(super) fn sheet(chart: &Chart, title: &Title) -> Sheet {
    let heading = format!("{}: a day of use", title.title);
    let mut svg = Svg::new("day", (chart.width, chart.height), &heading, &chart.told);
    let page = [
        ("width", number(chart.width)),
        ("height", number(chart.height)),
        ("fill", "white".to_owned()),
    ];
    svg.empty("rect", &page);
    let (bars, tints): (Vec<&Band>, Vec<&Band>) =
        chart.bands.iter().partition(|b| b.fill == Fill::On);
    tints.into_iter().for_each(|b| band(&mut svg, b));
    let over = |l: &&Line| matches!(l.ink, Ink::Charge | Ink::Volts | Ink::Reserve);
    let (curves, rules): (Vec<&Line>, Vec<&Line>) = chart.lines.iter().partition(over);
    rules.into_iter().for_each(|l| line(&mut svg, l));
    bars.into_iter().for_each(|b| band(&mut svg, b));
    curves.into_iter().for_each(|l| line(&mut svg, l));
    chart.marks.iter().for_each(|m| mark(&mut svg, m));
    chart.labels.iter().for_each(|l| l.draw(&mut svg));
    chart.uprights.iter().for_each(|u| u.draw(&mut svg));
    Sheet {
        name: "day".to_owned(),
        title: "A day of use".to_owned(),
        svg: svg.finish(),
        width_mm: chart.width,
        height_mm: chart.height,
    }
}

/// A tint: each lighter or darker than the others, so that they are told apart without colour; the lighter,
/// the more the alternator gives.
fn tint(fill: Fill) -> &'static str {
    match fill {
        Fill::Supply(SupplyState::Parked) => "#a9b5c8",
        Fill::Supply(SupplyState::KeyOn) => "#cdc8de",
        Fill::Supply(SupplyState::Idling) => "#efe3c6",
        Fill::Supply(SupplyState::Driving) => "#fdfcf6",
        Fill::Supply(SupplyState::Cranking) => "#b0624f",
        Fill::On => "#33475b",
    }
}

fn band(svg: &mut Svg, band: &Band) {
    let f = band.frame;
    let attributes = [
        ("x", number(f.left)),
        ("y", number(f.top)),
        ("width", number(f.right - f.left)),
        ("height", number(f.bottom - f.top)),
        ("fill", tint(band.fill).to_owned()),
    ];
    svg.empty("rect", &attributes);
}

fn line(svg: &mut Svg, line: &Line) {
    let (colour, width, dash) = match line.ink {
        Ink::Charge => ("black", 0.7, None),
        Ink::Volts => ("#001f4d", 0.8, Some("3 0.9")),
        Ink::Reserve => ("#a01818", 0.6, Some("3 1.6")),
        Ink::Grid => ("#8a8f98", 0.15, None),
        Ink::Part => ("#333333", 0.2, Some("0.8 0.8")),
        Ink::Edge => ("#333333", 0.3, None),
        Ink::Leader => ("#555555", 0.2, None),
        Ink::Rule { thick: true } => ("black", 0.7, None),
        Ink::Rule { thick: false } => ("#777777", 0.25, None),
    };
    let mut attributes = vec![
        ("points", points(&line.points)),
        ("fill", "none".to_owned()),
        ("stroke", colour.to_owned()),
        ("stroke-width", number(width)),
        ("stroke-linejoin", "round".to_owned()),
    ];
    attributes.extend(dash.map(|d| ("stroke-dasharray", d.to_owned())));
    svg.empty("polyline", &attributes);
}

/// A mark on white, so that a curve or a bar under it does not hide it.
fn mark(svg: &mut Svg, mark: &Mark) {
    let Point { x, y } = mark.at;
    let ink = |fill: &str| {
        [
            ("fill", fill.to_owned()),
            ("stroke", "black".to_owned()),
            ("stroke-width", number(0.35)),
        ]
    };
    match mark.sign {
        Sign::NoStart => {
            let circle = [("cx", number(x)), ("cy", number(y)), ("r", number(REACH))];
            svg.empty("circle", &[&circle[..], &ink("white")].concat());
            // REACH · cos 45°.
            let d = REACH * 0.707;
            for (from, to) in [((-d, -d), (d, d)), ((-d, d), (d, -d))] {
                let ends = [at(x + from.0, y + from.1), at(x + to.0, y + to.1)];
                let cross = [("points", points(&ends))];
                svg.empty("polyline", &[&cross[..], &ink("none")].concat());
            }
        }
        Sign::CutOut => {
            let corners = [
                at(x, y - REACH),
                at(x + REACH, y),
                at(x, y + REACH),
                at(x - REACH, y),
            ];
            let diamond = [("points", points(&corners))];
            svg.empty("polygon", &[&diamond[..], &ink("white")].concat());
        }
    }
}
