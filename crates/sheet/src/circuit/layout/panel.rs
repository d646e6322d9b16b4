//! The panel at the right of a sheet: the legend of what stands on it, how to read it, and the title block.

use super::strip::Numbered;
use super::words::{SIZE, Words};
use super::{Align, Ink, Label, Layout, Line, border};
use crate::Title;
use crate::circuit::path::{Foot, Item, Top};
use crate::geometry::{Frame, Point, at};
use crate::text::{ASCENT, LEADING, wrap};
use crate::title::{Rule, TitleBlock};
use loom::PartId;
use std::collections::BTreeMap;

/// Width of the panel, mm.
pub(crate) const PANEL: f64 = 110.0;
/// Left edges of the legend's columns, from the panel's left, and its width, mm.
const COLUMNS: [f64; 5] = [2.0, 17.0, 62.0, 89.0, PANEL - 1.0];
/// Free before a row's rule, mm.
const AIR: f64 = 0.8;
/// From one baseline to the next, mm.
const STEP: f64 = SIZE * LEADING;

/// How the drawing is to be read.
const NOTES: [&str; 6] = [
    "Thick line: laid wire, with name, colour (IEC 60757) and size: in mm², or with its gauge. Thin line: connection inside a part.",
    "Everything is drawn at rest: no current, nothing operated.",
    "A number in a box: the way goes on in that column; columns are numbered through all sheets. An arrow with a number: the rail goes on to that sheet, or comes from it.",
    "Broken outline: what is inside is in one place, wires too. What stands outside has its place beside it.",
    "31 along the bottom is the vehicle’s own body; each earth point is a bolt of its own on it.",
    "Connectors: the bow is the socket, the bar is the pin; the number after the colon is the cavity.",
];
/// Said where there is a coil with something across it.
const SURGE: &str =
    "A small box or triangle beside a coil: what takes its surge, inside the relay.";

/// The rows of a legend: name, what it is, place, columns; each broken into lines.
pub(crate) struct Legend {
    rows: Vec<[Vec<String>; 4]>,
}

impl Legend {
    /// Of what stands in these columns.
    pub fn of(words: &Words, page: &[Numbered]) -> Self {
        let mut seen: BTreeMap<PartId, Vec<usize>> = BTreeMap::new();
        for n in page {
            for part in parts(words, n) {
                let list = seen.entry(part).or_default();
                if list.last() != Some(&n.number) {
                    list.push(n.number);
                }
            }
        }
        let wide = |i: usize| COLUMNS[i + 1] - COLUMNS[i] - 1.5;
        let row = |(id, columns): (PartId, Vec<usize>)| {
            let part = words.loom.part(id);
            let texts = [
                part.name.clone(),
                words.what(id),
                words.place(part),
                runs(&columns),
            ];
            let mut i = 0;
            texts.map(|t| {
                i += 1;
                wrap(&t, SIZE, wide(i - 1))
            })
        };
        Self {
            rows: seen.into_iter().map(row).collect(),
        }
    }

    /// How tall it is.
    pub fn height(&self) -> f64 {
        self.rows.iter().map(row_height).sum::<f64>() + STEP + 2.0 * AIR
    }
}

/// Numbers as a person lists them: "1–4, 7".
fn runs(numbers: &[usize]) -> String {
    let mut out: Vec<(usize, usize)> = Vec::new();
    for n in numbers {
        match out.last_mut() {
            Some((_, last)) if *last + 1 == *n => *last = *n,
            _ => out.push((*n, *n)),
        }
    }
    let told = |(first, last): (usize, usize)| match last - first {
        0 => first.to_string(),
        1 => format!("{first}, {last}"),
        _ => format!("{first}–{last}"),
    };
    out.into_iter().map(told).collect::<Vec<_>>().join(", ")
}

fn row_height(row: &[Vec<String>; 4]) -> f64 {
    row.iter().map(Vec::len).max().unwrap_or(1) as f64 * STEP + 2.0 * AIR
}

/// The parts in a column.
fn parts(words: &Words, n: &Numbered) -> Vec<PartId> {
    let of = |pin| words.loom.pin(pin).part;
    let mut out = vec![match n.column.top {
        Top::Rail(pin) | Top::Stub(pin) | Top::Branch(pin) => of(pin),
    }];
    for item in &n.column.items {
        match item {
            Item::Wire(_) => {}
            Item::Node(pin) => out.push(of(*pin)),
            Item::Part(stand) => out.push(stand.part),
        }
    }
    match n.column.foot {
        Foot::Earth(pin) | Foot::Join(pin) | Foot::Bus(pin) | Foot::Throw(pin) => out.push(of(pin)),
        Foot::Open => {}
    }
    out.dedup();
    out
}

fn block(title: &Title, number: String) -> TitleBlock {
    TitleBlock::new(title, PANEL, "Circuit diagram", number)
}

fn notes(words: &Words) -> Vec<String> {
    let surge = words.takes_surges().then_some(SURGE);
    let all = NOTES.into_iter().chain(surge);
    all.flat_map(|n| wrap(n, SIZE, PANEL - 4.0)).collect()
}

/// How tall a legend may be.
pub(crate) fn legend_room(words: &Words, (width, height): (f64, f64), title: &Title) -> f64 {
    let border = border(width, height);
    border.bottom
        - border.top
        - block(title, String::new()).height()
        - notes(words).len() as f64 * STEP
        - 5.0
}

/// Adds panel and border to a sheet.
pub(crate) fn emit(sheet: &mut Layout, words: &Words, legend: &Legend, title: &Title) {
    let edge = border(sheet.width, sheet.height);
    let left = edge.right - PANEL;
    let corners = [
        (edge.left, edge.top),
        (edge.right, edge.top),
        (edge.right, edge.bottom),
        (edge.left, edge.bottom),
        (edge.left, edge.top),
    ];
    rule(sheet, true, &corners);
    rule(sheet, false, &[(left, edge.top), (left, edge.bottom)]);
    legend_rows(sheet, legend, Frame { left, ..edge });
    let number = format!("sheet {} of {}", sheet.number, sheet.of);
    let block = block(title, number);
    let top = edge.bottom - block.height();
    let lines = notes(words);
    for (i, line) in lines.iter().enumerate() {
        let y = top - 2.5 - (lines.len() - 1 - i) as f64 * STEP;
        put(sheet, line, SIZE, (left + 2.0, y), Align::Start);
    }
    let (labels, rules) = block.place(Frame { left, ..edge });
    sheet.labels.extend(labels);
    for Rule { thick, points } in rules {
        sheet.lines.push(line(thick, points));
    }
}

fn put(sheet: &mut Layout, text: &str, size: f64, (x, y): (f64, f64), align: Align) {
    sheet
        .labels
        .push(Label::new(text.to_owned(), size, at(x, y), align));
}

fn rule(sheet: &mut Layout, thick: bool, points: &[(f64, f64)]) {
    let points = points.iter().map(|(x, y)| at(*x, *y)).collect();
    sheet.lines.push(line(thick, points));
}

fn line(thick: bool, points: Vec<Point>) -> Line {
    Line {
        name: String::new(),
        ink: Ink::Rule { thick },
        points,
    }
}

fn legend_rows(sheet: &mut Layout, legend: &Legend, panel: Frame) {
    let heads = ["Name", "What", "Place", "Column"].map(|t| vec![t.to_owned()]);
    let mut y = panel.top;
    for row in std::iter::once(&heads).chain(&legend.rows) {
        for (lines, x) in row.iter().zip(COLUMNS) {
            for (i, line) in lines.iter().enumerate() {
                let base = y + AIR + SIZE * ASCENT + i as f64 * STEP;
                put(sheet, line, SIZE, (panel.left + x, base), Align::Start);
            }
        }
        y += row_height(row);
        rule(sheet, false, &[(panel.left, y), (panel.right, y)]);
    }
}
