//! A control that is too tall for a sheet: what stands before the coil moves into a column of its own, and
//! both ends bear the number of the column where the way goes on.

use super::{Block, Column, Face, Foot, Item, Top};

/// The same block with the longest control before a coil folded once, if there is any to fold.
pub(crate) fn fold(block: &Block) -> Option<Block> {
    let place = |column: &Column| column.items.iter().position(is_coil).filter(|at| *at > 2);
    let (at, cut) = (0..block.columns.len())
        .filter_map(|c| place(&block.columns[c]).map(|cut| (c, cut)))
        .max_by_key(|(_, cut)| *cut)?;
    let whole = &block.columns[at];
    let Item::Part(coil) = whole.items[cut] else {
        return None;
    };
    let before = Column {
        top: whole.top,
        items: whole.items[..cut].to_vec(),
        foot: Foot::Join(coil.upper),
    };
    let after = Column {
        top: Top::Branch(coil.upper),
        items: whole.items[cut..].to_vec(),
        foot: whole.foot,
    };
    let mut folded = block.clone();
    folded.columns.splice(at..=at, [before, after]);
    Some(folded)
}

fn is_coil(item: &Item) -> bool {
    matches!(item, Item::Part(s) if s.face == Face::Coil)
}
