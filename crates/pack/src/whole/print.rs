//! Which sheets are larger than the paper of the rest, and how to print them.

use super::Whole;
use crate::content::{Block, Section};
use sheet::Sheet;

/// ISO 216, long side first, mm.
const SIZES: [(&str, f64, f64); 5] = [
    ("A4", 297.0, 210.0),
    ("A3", 420.0, 297.0),
    ("A2", 594.0, 420.0),
    ("A1", 841.0, 594.0),
    ("A0", 1189.0, 841.0),
];

/// Nothing where every drawing fits the paper.
pub(super) fn section(w: &Whole) -> Option<Section> {
    let (wide, tall) = w.paper.size();
    let kinds = [
        ("circuit diagram", w.circuit),
        ("loom board", w.board),
        ("where it runs", w.route),
    ];
    let large = |s: &&Sheet| s.width_mm.max(s.height_mm) > wide.max(tall) + 1.0;
    let told = kinds.iter().filter_map(|(what, sheets)| {
        let sizes: Vec<String> = sheets.iter().filter(large).map(size).collect();
        (!sizes.is_empty()).then(|| format!("{what}: {}", sizes.join(", ")))
    });
    let told: Vec<String> = told.collect();
    if told.is_empty() {
        return None;
    }
    let says = format!(
        "These sheets are larger than the others; print each at its own size, or fit it to the paper and read it with a glass: {}.",
        told.join("; ")
    );
    let block = Block::Text(says);
    Some(Section::of("print", "Large sheets", block))
}

fn size(s: &Sheet) -> String {
    let (long, short) = (s.width_mm.max(s.height_mm), s.width_mm.min(s.height_mm));
    let is = |(_, l, b): &&(&str, f64, f64)| (long - l).abs() < 1.0 && (short - b).abs() < 1.0;
    SIZES.iter().find(is).map_or_else(
        || format!("{long:.0} × {short:.0} mm"),
        |(name, ..)| (*name).to_owned(),
    )
}
