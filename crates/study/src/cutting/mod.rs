//! Pieces cut from sticks or rolls of one length, from as few as can be: one-dimensional cutting stock. Takes whole
//! lengths in one unit; gives the pieces of each stick, and a number of sticks that nobody can do with less than.
//!
//! The bound is the linear one over all ways to cut a stick (Gilmore and Gomory 1961, from memory), found by its dual: prices of pieces
//! such that no stick's pieces are worth more than a stick. The sticks come from packing one after the other as full as
//! can be, or from rounding the linear answer and packing the rest; where neither reaches the bound and the problem is
//! small, from the whole-numbered problem over the ways found.
//!
//! | file | step |
//! |---|---|
//! | `fill` | one stick as full, or as much worth, as can be; and one after the other |
//! | `linear` | the bound, the ways worth cutting by, and their rounding |

mod fill;
mod linear;

use std::collections::BTreeMap;

/// Sticks with the pieces cut from each.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Cutting {
    /// By stick: which pieces, by index.
    pub sticks: Vec<Vec<usize>>,
    /// No way to cut needs fewer sticks.
    pub least: usize,
}

impl Cutting {
    /// Whether fewer sticks are proved impossible.
    pub fn is_proved(&self) -> bool {
        self.sticks.len() == self.least
    }
}

/// This piece, by index, is longer than a stick, or has no length.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Uncut(pub usize);

/// A way to cut one stick: by size, how many pieces.
type Way = Vec<u64>;

/// Pieces of the same length taken together.
#[derive(Clone, Debug)]
struct Sizes {
    /// Length with its kerf, longest first.
    lengths: Vec<u64>,
    /// How many are wanted.
    counts: Vec<u64>,
    /// Length of a stick with one kerf more.
    room: u64,
}

/// Pieces that are cut from sticks of a length, `kerf` lost at each cut. The last cut needs no kerf where it ends at the
/// stick's end: `n` pieces take `n − 1` then, so that one kerf more on the stick and one on each piece is the same.
///
/// # Errors
/// A piece that no stick holds.
pub fn cut(stick: u64, kerf: u64, pieces: &[u64]) -> Result<Cutting, Uncut> {
    let mut same: BTreeMap<u64, Vec<usize>> = BTreeMap::new();
    for (i, piece) in pieces.iter().enumerate() {
        if *piece > stick || *piece == 0 {
            return Err(Uncut(i));
        }
        same.entry(piece + kerf).or_default().push(i);
    }
    let sizes = Sizes {
        lengths: same.keys().rev().copied().collect(),
        counts: same.values().rev().map(|v| v.len() as u64).collect(),
        room: stick + kerf,
    };
    if pieces.is_empty() {
        return Ok(Cutting {
            sticks: Vec::new(),
            least: 0,
        });
    }
    let mut best = fill::one_after_the_other(&sizes);
    let least = match linear::ways(&sizes) {
        Ok((ways, least)) => {
            if best.len() > least {
                shorter(&mut best, linear::rounded(&sizes, &ways));
            }
            if best.len() > least && pieces.len() <= SMALL {
                shorter(&mut best, linear::whole(&sizes, &ways));
            }
            least
        }
        // A solver that gives up proves nothing: all that is known is how much there is to cut.
        Err(_) => sizes.whole_sticks(),
    };
    let mut left: Vec<Vec<usize>> = same.into_values().rev().collect();
    let stick = |way: &Way| {
        let each = way.iter().enumerate();
        each.flat_map(|(size, n)| {
            let from = left[size].len() - *n as usize;
            left[size].split_off(from)
        })
        .collect()
    };
    Ok(Cutting {
        sticks: best.iter().map(stick).collect(),
        least,
    })
}

/// Pieces up to which the whole-numbered problem is solved: beyond, it may take minutes. Our own, no source.
const SMALL: usize = 60;

/// Takes the other where it needs fewer sticks; one that could not be worked out leaves the best unproved.
fn shorter(best: &mut Vec<Way>, other: Result<Vec<Way>, linear::Unsolved>) {
    if let Ok(other) = other
        && other.len() < best.len()
    {
        *best = other;
    }
}

impl Sizes {
    /// Sticks that all pieces would fill whole.
    fn whole_sticks(&self) -> usize {
        let each = self.lengths.iter().zip(&self.counts);
        let all: u64 = each.map(|(length, count)| length * count).sum();
        all.div_ceil(self.room) as usize
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    proptest! {
        /// Every piece is cut once, no stick is overfull with its kerfs, and no answer lies below its own bound.
        #[test]
        fn every_piece_is_cut_once_from_what_holds_it(
            stick in 50_u64..2000,
            kerf in 0_u64..5,
            parts in proptest::collection::vec(0.01_f64..1.0, 0..40),
        ) {
            let pieces: Vec<u64> = parts.iter().map(|p| ((stick as f64 * p) as u64).max(1)).collect();
            let cut = cut(stick, kerf, &pieces).unwrap();
            let mut met: Vec<usize> = cut.sticks.concat();
            met.sort_unstable();
            prop_assert_eq!(met, (0..pieces.len()).collect::<Vec<_>>());
            for s in &cut.sticks {
                let lengths: u64 = s.iter().map(|i| pieces[*i]).sum();
                prop_assert!(lengths + kerf * (s.len() as u64).saturating_sub(1) <= stick);
            }
            prop_assert!(cut.sticks.len() >= cut.least);
            // Nobody cuts more than there is.
            let all: u64 = pieces.iter().sum();
            prop_assert!(cut.least as u64 * stick >= all || pieces.is_empty());
        }
    }

    #[test]
    fn a_piece_longer_than_a_stick_is_told() {
        assert_eq!(cut(100, 0, &[20, 101]), Err(Uncut(1)));
        assert_eq!(cut(100, 0, &[0]), Err(Uncut(0)));
        assert_eq!(cut(100, 3, &[100]).map(|c| c.sticks.len()), Ok(1));
    }
}
