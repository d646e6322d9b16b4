//! The sheet put together from the top down: heading and sentence, a row for each piece, volts below, key and title block.

use super::{FallChart, FallKind, FallRow, LIMIT, LINK, PART, SHOWS, VEHICLE, WIRE};
use crate::Title;
use crate::chart::ticks::{self, FIGURES, Tick};
use crate::chart::{
    AIR, Chart, EDGE, Foot, Heading, Sample, Scale, Sign, block, card, decimal, span,
};
use crate::geometry::{Frame, at};
use crate::label::Align;
use crate::text::{SIZE, width, wrap_figures};

/// Words left of the bars are no wider than this, mm.
const WORDS: f64 = 44.0;
/// From words to bars, and from bars to volts, mm.
const NEAR: f64 = 2.0;
/// Free above and below the words of a row, mm.
const ROOM: f64 = 0.8;
/// From one tick to the next at least, mm.
const APART: f64 = 11.0;
/// Half the height of a bar, mm.
const HALF: f64 = 1.5;

fn lines(row: &FallRow) -> Vec<String> {
    wrap_figures(&format!("{}  {}", row.name, row.what), SIZE, WORDS)
}

fn volts(row: &FallRow) -> String {
    match row.kind {
        FallKind::Load => format!("gets {:.2} V", row.volts),
        _ => format!("{:.3} V", row.volts),
    }
}

fn widest(texts: impl Iterator<Item = String>) -> f64 {
    texts.map(|t| width(&t, SIZE)).fold(0.0, f64::max)
}

/// A load's chart.
pub(super) fn chart(f: &FallChart, title: &Title) -> Chart {
    let edge = card::border(0.0);
    let ends = (edge.left + AIR, edge.right - AIR);
    let heading = Heading::new(&f.heading, &f.says, ends.1 - ends.0);
    let mut chart = Chart::new((0.0, 0.0), edge, told(f));
    heading.place(&mut chart, (ends.0, edge.top + AIR));
    let rows: Vec<Vec<String>> = f.rows.iter().map(lines).collect();
    let tall = |words: &Vec<String>| block(words.len()) + 2.0 * ROOM;
    let top = edge.top + AIR + heading.height();
    let plot = Frame {
        left: ends.0 + widest(rows.iter().flatten().cloned()) + NEAR,
        right: ends.1 - widest(f.rows.iter().map(volts)) - NEAR,
        top,
        bottom: top + rows.iter().map(tall).sum::<f64>(),
    };
    let lost = f.rows.iter().filter(|r| r.kind != FallKind::Load);
    let lost: f64 = lost.map(|r| r.volts.max(0.0)).sum();
    let room = (plot.right - plot.left) / APART;
    let (_, to, step) = span((0.0, lost.max(f.limit.0)), room, 1e-3);
    let scale = Scale {
        from: 0.0,
        to,
        start: plot.left,
        end: plot.right,
    };
    let tick = |v: f64| Tick {
        at: scale.at(v),
        text: decimal(v, step),
        main: true,
    };
    let marks: Vec<Tick> = scale.ticks(step).into_iter().map(tick).collect();
    ticks::uprights(&mut chart, plot, &marks);
    ticks::figures(
        &mut chart,
        plot,
        &marks,
        "volts lost from the battery on, V",
    );
    let mut y = top;
    let mut sofar = 0.0;
    for (row, words) in f.rows.iter().zip(&rows) {
        let middle = y + tall(words) / 2.0;
        chart.words(words, (ends.0, y + ROOM), Align::Start);
        let beside = (ends.1, middle - block(1) / 2.0);
        chart.words(&[volts(row)], beside, Align::End);
        bar(&mut chart, row, (scale, &mut sofar), middle);
        y += tall(words);
        if y < plot.bottom - 1e-6 {
            let x = scale.at(sofar);
            chart.line(LINK, vec![at(x, middle + HALF), at(x, y + ROOM)]);
        }
        let rule = vec![at(ends.0, y), at(plot.left - NEAR, y)];
        chart.line(crate::chart::THIN, rule);
    }
    let x = scale.at(f.limit.0);
    chart.line(LIMIT, vec![at(x, plot.top), at(x, plot.bottom)]);
    chart.edge(EDGE, plot);
    let has = |kind: FallKind| f.rows.iter().any(|r| r.kind == kind);
    let mut wanted = vec![(Sample::Box(WIRE), "wire with its joints".to_owned())];
    if has(FallKind::Part) {
        wanted.push((Sample::Box(PART), "fuse, contact, plug".to_owned()));
    }
    if has(FallKind::Vehicle) {
        wanted.push((Sample::Box(VEHICLE), "the vehicle’s own".to_owned()));
    }
    wanted.push((Sample::Mark(Sign::CrossedRing), "the load".to_owned()));
    wanted.push((Sample::Line(LIMIT), f.limit.1.clone()));
    let shows = (SHOWS, String::new());
    let foot = Foot::new(wanted, title, shows, edge.right - edge.left);
    chart.border = card::border(plot.bottom + FIGURES + foot.height());
    (chart.width, chart.height) = card::size(chart.border);
    foot.place(&mut chart);
    chart
}

/// A row's bar, from where the last one ended.
fn bar(chart: &mut Chart, row: &FallRow, (scale, sofar): (Scale, &mut f64), middle: f64) {
    let from = scale.at(*sofar);
    let fill = match row.kind {
        FallKind::Load => {
            chart.mark(Sign::CrossedRing, at(from, middle));
            return;
        }
        FallKind::Wire => WIRE,
        FallKind::Part => PART,
        FallKind::Vehicle => VEHICLE,
    };
    *sofar += row.volts.max(0.0);
    let to = scale.at(*sofar);
    let frame = Frame::around(at(from, middle - HALF), at(to, middle + HALF));
    chart.band(fill, frame);
}

/// The rows in words, for screen readers.
fn told(f: &FallChart) -> String {
    let each = f
        .rows
        .iter()
        .map(|r| format!("{} {}: {}", r.name, r.what, volts(r)));
    format!(
        "{} {}. {}.",
        f.says,
        f.limit.1,
        each.collect::<Vec<_>>().join("; ")
    )
}
