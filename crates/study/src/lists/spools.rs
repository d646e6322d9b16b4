//! From which rolls wire is cut and from which sticks sleeve: for each kind the length that comes to least bought, and of
//! equals the fewest. What a cut loses is counted.

use super::wire;
use crate::cutting::{Cutting, cut};
use crate::design::Design;
use crate::fit::Table;
use crate::laying::Laying;
use loom::WireId;
use quantity::Quantity;

/// A piece.
#[derive(Clone, Debug, PartialEq)]
pub struct Piece {
    /// The wire that it is, or what it covers.
    pub name: String,
    /// Its length, m.
    pub metres: f64,
}

/// The rolls or sticks of one kind.
#[derive(Clone, Debug)]
pub struct Spools {
    /// "2.5 mm² thin-wall PVC, RD/BU"; "convolute nylon 13".
    pub what: String,
    /// Length of one, m.
    pub metres: f64,
    /// Lost at each cut, mm.
    pub kerf_mm: f64,
    /// By roll: the pieces cut from it.
    pub rolls: Vec<Vec<Piece>>,
    /// No way to cut them needs fewer of this length.
    pub least: usize,
    /// Some piece is longer than a stick, and pieced together from several: then the least holds for these cuts only.
    pub pieced: bool,
}

/// Lengths are whole millimetres.
const MM: f64 = 1000.0;

fn whole(metres: f64) -> u64 {
    (metres * MM - 1e-6).ceil() as u64
}

/// The best of the lengths that something is sold in, each piece taken so much longer as is bought more; nothing where one
/// is longer than any.
fn spool(
    what: String,
    lengths: &[f64],
    (kerf_mm, more): (f64, f64),
    pieces: &[Piece],
) -> Option<Spools> {
    let whole: Vec<u64> = pieces.iter().map(|p| whole(p.metres * more)).collect();
    let each = lengths.iter().filter_map(|metres| {
        let cutting = cut((metres * MM).round() as u64, kerf_mm.ceil() as u64, &whole).ok()?;
        Some((*metres, cutting))
    });
    let bought = |(metres, cutting): &(f64, Cutting)| metres * cutting.sticks.len() as f64;
    let (metres, cutting) = each.min_by(|a, b| {
        let by_length = bought(a).total_cmp(&bought(b));
        by_length.then(a.1.sticks.len().cmp(&b.1.sticks.len()))
    })?;
    let rolls = cutting.sticks.iter();
    let rolls = rolls.map(|stick| stick.iter().map(|i| pieces[*i].clone()).collect());
    Some(Spools {
        what,
        metres,
        kerf_mm,
        rolls: rolls.collect(),
        least: cutting.least,
        pieced: false,
    })
}

/// For every kind and colour of wire that is sold on rolls; and the wires that are longer than any roll.
pub(super) fn wires(d: &Design, table: &Table) -> (Vec<Spools>, Vec<WireId>) {
    let mut found = Vec::new();
    let mut too_long = Vec::new();
    let more = 1.0 + table.allowance("wire").value;
    for ((conductor, colour), wires) in wire::kinds(d) {
        let copper = d.stock.conductors[conductor].area;
        let rolls = table.rolls.iter().filter(|roll| roll.has(copper));
        let rolls: Vec<f64> = rolls.map(|roll| roll.metres).collect();
        if rolls.is_empty() {
            continue;
        }
        let piece = |w: &WireId| Piece {
            name: d.loom.wire(*w).name.clone(),
            metres: d.loom.wire(*w).cut.si(),
        };
        let pieces: Vec<Piece> = wires.iter().map(piece).collect();
        let what = wire::words(d, conductor, &colour);
        match spool(what, &rolls, (0.0, more), &pieces) {
            Some(spools) => found.push(spools),
            None => too_long.extend(wires),
        }
    }
    (found, too_long)
}

/// For every sleeve of stock, by its pieces. A run longer than a stick is pieced together from whole ones and a rest.
pub(super) fn sleeves(d: &Design, laying: &Laying, pieces: &[(usize, Vec<Piece>)]) -> Vec<Spools> {
    let each = pieces.iter().filter_map(|(sleeve, pieces)| {
        let sleeve = &d.stock.sleeves[*sleeve];
        let stick = laying.stick(&sleeve.kind)?;
        let most = whole(stick.metres);
        let mut short = Vec::new();
        for p in pieces {
            let mut left = whole(p.metres);
            while left > 0 {
                let cut = left.min(most);
                short.push(Piece {
                    name: p.name.clone(),
                    metres: cut as f64 / MM,
                });
                left -= cut;
            }
        }
        let pieced = short.len() > pieces.len();
        let kerf = (stick.kerf_mm, 1.0);
        let spools = spool(sleeve.name.clone(), &[stick.metres], kerf, &short)?;
        Some(Spools { pieced, ..spools })
    });
    each.collect()
}
