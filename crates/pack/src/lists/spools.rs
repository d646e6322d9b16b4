//! From which rolls the wires are cut, and from which sticks the sleeves.

use crate::content::Align::{Left as L, Right as R};
use crate::content::{Block, Section, Table};
use crate::tables::columns;
use quantity::figures;
use study::{CutPiece, Lists};

pub(super) fn section(l: &Lists) -> Section {
    let open: usize = l.spools.iter().map(|k| k.rolls.len() - k.least).sum();
    let says = match open {
        0 => "Of each kind and colour these are the fewest rolls or sticks of their length that hold every piece: proved.".to_owned(),
        n => format!("{n} fewer rolls or sticks may do: that these are the fewest is not proved."),
    };
    let mut blocks = vec![Block::Text(says)];
    if !l.too_long.is_empty() {
        let n = l.too_long.len();
        blocks.push(Block::Text(format!(
            "Longer than any roll: {n} wires, which are not in the table."
        )));
    }
    blocks.push(Block::Table(table(l)));
    Section {
        id: "rolls",
        title: "From which roll or stick".into(),
        blocks,
    }
}

pub(super) fn table(l: &Lists) -> Table {
    let mut rows = Vec::new();
    for kind in &l.spools {
        for (n, roll) in kind.rolls.iter().enumerate() {
            let used: f64 = roll.iter().map(|p| p.metres).sum();
            // The last cut loses nothing where it ends at the roll's end; what is left is told as if it did.
            let kerfs = kind.kerf_mm * 1e-3 * roll.len() as f64;
            rows.push(vec![
                kind.what.clone(),
                format!("{} of {} m", n + 1, figures(kind.metres, 3)),
                told(roll),
                figures(kind.kerf_mm, 2),
                format!("{:.2}", (kind.metres - used - kerfs).max(0.0)),
            ]);
        }
    }
    Table {
        columns: columns(&[
            ("kind", L),
            ("roll or stick", L),
            ("pieces, m", L),
            ("lost a cut, mm", R),
            ("left, m", R),
        ]),
        rows,
    }
}

fn told(roll: &[CutPiece]) -> String {
    let piece = |p: &CutPiece| {
        let digits = if p.metres < 0.2 { 3 } else { 2 };
        format!("{} {:.digits$}", p.name, p.metres)
    };
    roll.iter().map(piece).collect::<Vec<_>>().join(", ")
}
