//! What stands beside each place and each stretch of the board.

use crate::drawing::Drawing;
use crate::geometry::{Point, at};
use crate::label::{Align, Label};
use crate::text::{ASCENT, LARGE, LEADING, SIZE, width, wrap};
use loom::{Loom, PartKind, PlaceId, StretchId, WireId};
use quantity::{Quantity, metres};
use stock::Stock;
use study::{Laid, Lists};

/// Words beside a place: the place, then each part there with its wires.
#[derive(Clone, Debug)]
pub(super) struct Beside {
    /// From the top: text and size, mm.
    pub lines: Vec<(String, f64)>,
}

/// No wider than this, mm.
const WIDE: f64 = 78.0;

impl Beside {
    pub fn new(loom: &Loom, place: PlaceId, again: bool) -> Self {
        let p = loom.place(place);
        let wet = if p.wet { ", wet" } else { "" };
        let heading = match again {
            true => format!("{} (as above)", p.name),
            false => format!("{} ({}{wet})", p.name, p.zone.word()),
        };
        let mut lines: Vec<(String, f64)> = Vec::new();
        let mut add = |text: &str, size: f64| {
            lines.extend(wrap(text, size, WIDE).into_iter().map(|l| (l, size)));
        };
        add(&heading, LARGE);
        for (_, part) in loom.each_part().filter(|(_, part)| part.place == place) {
            if again {
                break;
            }
            let wires: Vec<&str> = loom
                .each_wire()
                .filter(|(_, w)| part.pins.contains(&w.from) || part.pins.contains(&w.to))
                .map(|(_, w)| w.name.as_str())
                .collect();
            if wires.is_empty() {
                continue;
            }
            let what = match &part.kind {
                PartKind::Splice => "splice",
                _ => part.label.as_str(),
            };
            add(&format!("{} {what}: {}", part.name, wires.join(" ")), SIZE);
        }
        Self { lines }
    }

    /// How wide and tall it is, mm.
    pub fn size(&self) -> (f64, f64) {
        let wide = self.lines.iter().map(|(l, size)| width(l, *size));
        let tall = self.lines.iter().map(|(_, size)| size * LEADING);
        (wide.fold(0.0, f64::max), tall.sum())
    }

    /// Draws it from its upper left corner.
    pub fn draw(&self, corner: Point, to: &mut Drawing) {
        let mut y = corner.y;
        for (line, size) in &self.lines {
            let place = at(corner.x, y + size * ASCENT);
            to.words(Label::new(line.clone(), *size, place, Align::Start));
            y += size * LEADING;
        }
    }
}

/// Words over and under a stretch.
#[derive(Clone, Debug)]
pub(super) struct Along {
    pub over: Vec<String>,
    pub under: Vec<String>,
}

impl Along {
    pub fn new((loom, stock, lists): (&Loom, &Stock, &Lists), stretch: StretchId) -> Self {
        let s = loom.stretch(stretch);
        let mut over = vec![s.length.show()];
        let mut under = Vec::new();
        if let Some(laid) = lists.laid.iter().find(|l| l.stretch == stretch) {
            over.push(bundle_words(&s.wires, laid));
            under.push(sleeve_words(stock, laid));
            under.push(fixing_words(laid));
        }
        if let Some(panel) = &s.panel {
            let hole = lists.laid.iter().find(|l| l.stretch == stretch);
            let across = hole.and_then(|l| l.hole.as_ref()?.across);
            let across = across.map_or_else(String::new, |a| format!(", hole {}", a.show()));
            under.push(format!("{}{across}", panel.name));
        }
        Self {
            over: vec![over.join(", ")],
            under,
        }
    }

    pub fn width(&self) -> f64 {
        let each = self.over.iter().chain(&self.under);
        each.map(|l| width(l, SIZE)).fold(0.0, f64::max)
    }
}

/// How far words at a line of this thickness reach above and below it, mm.
pub(super) fn reach(words: &Along, thick: f64) -> (f64, f64) {
    let tall = |lines: &[String]| lines.len() as f64 * SIZE * LEADING + 1.5;
    (
        thick / 2.0 + tall(&words.over),
        thick / 2.0 + tall(&words.under),
    )
}

fn bundle_words(wires: &[WireId], laid: &Laid) -> String {
    let count = match wires.len() {
        1 => "1 wire".to_owned(),
        n => format!("{n} wires"),
    };
    format!("{count}, {} thick", laid.bundle.laid.show())
}

fn sleeve_words(stock: &Stock, laid: &Laid) -> String {
    match &laid.sleeve {
        None => "open".to_owned(),
        Some(Ok(kind)) => stock.sleeves[*kind].name.clone(),
        Some(Err(what)) => format!("not in stock: {what}"),
    }
}

fn fixing_words(laid: &Laid) -> String {
    let many = |n: u32, one: &str| match n {
        1 => format!("1 {one}"),
        n => format!("{n} {one}s"),
    };
    let mut words = vec![many(laid.clips, "clip")];
    if laid.ties > 0 {
        words.push(many(laid.ties, "tie"));
    }
    words.join(", ")
}

/// A length as it is drawn where the board is no longer than it must be: longer ones longer, but not in proportion, mm.
pub(super) fn drawn(loom: &Loom, stretch: StretchId) -> f64 {
    let length = loom.stretch(stretch).length.si() / metres(1.0).si();
    14.0 + 22.0 * length.max(0.0).sqrt()
}
