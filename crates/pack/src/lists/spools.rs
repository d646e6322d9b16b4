//! From which rolls the wires are cut, and from which sticks the sleeves.

use crate::content::Align::{Left as L, Right as R};
use crate::content::{Block, Section, Table};
use crate::tables::columns;
use quantity::figures;
use study::{CutPiece, Lists};

pub(super) fn section(l: &Lists) -> Section {
    let whole = l.spools.iter().filter(|k| !k.pieced);
    let open: usize = whole.map(|k| k.rolls.len() - k.least).sum();
    let mut says = match open {
        0 => "Of each kind and colour these are the fewest rolls or sticks of their length that hold every piece: proved.".to_owned(),
        n => format!("{n} fewer rolls or sticks may do: that these are the fewest is not proved."),
    };
    says += " What is left on a roll is enough for what is bought beyond the cuts. Wire above 10 mm² is bought by the metre (common practice, no source).";
    if l.spools.iter().any(|k| k.pieced) {
        says += " A run that is longer than a stick is pieced together; whether another division takes fewer was not asked.";
    }
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
                format!("{} m, no. {}", figures(kind.metres, 3), n + 1),
                told(roll),
                if kind.kerf_mm > 0.0 {
                    figures(kind.kerf_mm, 2)
                } else {
                    String::new()
                },
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
