//! What to buy.

use crate::content::Align::{Left as L, Right as R};
use crate::content::{Block, Section, Table};
use crate::tables::columns;
use study::{Amount, Buy, Lists};

pub(super) fn section(l: &Lists) -> Section {
    let mut section = Section::of("buy", "To buy", Block::Table(table(l)));
    let prices = total(&l.buy).unwrap_or_else(|| {
        "No price is known for these: prices come from a stock file of your own.".to_owned()
    });
    section.blocks.push(Block::Text(prices));
    section
}

pub(super) fn table(l: &Lists) -> Table {
    let row = |b: &Buy| {
        let (amount, unit) = match b.amount {
            Amount::Metres(m) => (format!("{m:.1}"), "m"),
            Amount::Pieces(n) => (n.to_string(), "pieces"),
        };
        let price = b.price.map_or_else(String::new, |p| format!("{p:.2}"));
        vec![
            b.what.clone(),
            b.group.to_owned(),
            amount,
            unit.to_owned(),
            price,
            b.used_by.join(", "),
        ]
    };
    Table {
        columns: columns(&[
            ("what", L),
            ("kind", L),
            ("amount", R),
            ("unit", L),
            ("price", R),
            ("for", L),
        ]),
        rows: l.buy.iter().map(row).collect(),
    }
}

/// What all that has a price costs, and how much has none.
fn total(rows: &[Buy]) -> Option<String> {
    let priced: Vec<f64> = rows.iter().filter_map(|b| b.price).collect();
    if priced.is_empty() {
        return None;
    }
    let sum: f64 = priced.iter().sum();
    Some(format!(
        "Together {sum:.2}, in the money of your stock file, for {} of {} rows; the others have no price there.",
        priced.len(),
        rows.len()
    ))
}
