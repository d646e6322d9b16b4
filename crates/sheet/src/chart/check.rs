//! What may be wrong with a chart: words over words, through lines or on boxes, and anything outside the border.

use super::{Chart, Line, REACH, clip};
use crate::geometry::{Frame, Point};

/// No words are smaller than this, mm: they are read from a phone too.
const SMALLEST: f64 = 2.6;
/// Half the width of a usual line, mm.
const HALF: f64 = 0.1;

/// What is wrong with a chart.
pub(crate) fn faults(chart: &Chart) -> Vec<String> {
    let mut out = Vec::new();
    let labels = chart.labels.iter().map(|l| (l.frame(), &l.text));
    let upright = chart.uprights.iter().map(|u| (u.frame(), &u.text));
    let words: Vec<(Frame, &String)> = labels.chain(upright).collect();
    for (i, (frame, text)) in words.iter().enumerate() {
        let frame = frame.grown(-0.02);
        let mut meets = |other: String| out.push(format!("“{text}” × {other}"));
        if !chart.border.holds(frame) {
            meets("the border".to_owned());
        }
        let others = words[i + 1..].iter();
        for (_, other) in others.filter(|(f, _)| f.meets(frame)) {
            meets((*other).clone());
        }
        under(chart, frame).into_iter().for_each(meets);
    }
    let small = chart.labels.iter().filter(|l| l.size < SMALLEST);
    out.extend(small.map(|l| format!("“{}” × a phone", l.text)));
    out.extend(outside(chart));
    out
}

/// What lies under words. On a tag nothing does but what a tag may not hide.
fn under(chart: &Chart, words: Frame) -> Vec<String> {
    let on_tag = |b: &&super::Band| b.fill.over && b.frame.holds(words);
    let tagged = chart.bands.iter().any(|b| on_tag(&b));
    let mut out = Vec::new();
    let boxes = chart
        .bands
        .iter()
        .filter(|b| !tagged && b.frame.meets(words));
    out.extend(boxes.map(|b| format!("{:?}", b.fill)));
    let through = |l: &&Line| {
        let pair = |p: &[Point]| clip::piece(words.grown(HALF), p[0], p[1]).is_some();
        (l.ink.over || !tagged) && l.points.windows(2).any(pair)
    };
    out.extend(
        chart
            .lines
            .iter()
            .filter(through)
            .map(|l| format!("{:?}", l.ink)),
    );
    let mark = |m: &&super::Mark| Frame::around(m.at, m.at).grown(REACH).meets(words);
    out.extend(chart.marks.iter().filter(mark).map(|m| format!("{m:?}")));
    out
}

/// What lies outside the border.
fn outside(chart: &Chart) -> Vec<String> {
    let points = chart.lines.iter().flat_map(|l| &l.points);
    let corners = chart.areas.iter().flat_map(|a| &a.points);
    let marks = chart.marks.iter().map(|m| &m.at);
    let places = points.chain(corners).chain(marks);
    let boxes = places.map(|p| Frame::around(*p, *p));
    boxes
        .chain(chart.bands.iter().map(|b| b.frame))
        .filter(|f| !chart.border.grown(0.01).holds(*f))
        .map(|f| format!("{f:?} × the border"))
        .collect()
}
