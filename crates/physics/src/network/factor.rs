//! A sparse symmetric matrix and its factor `L D Lᵀ`. The pattern is analysed once; the numbers come
//! each pass. Takes entries, gives solutions, and says whether the matrix is positive definite.
//!
//! A loom is nearly a tree, so a column of `L` has one or two entries, and a general library's
//! bookkeeping costs more than its arithmetic. Here a list of what is taken from where, made once,
//! leaves a pass with nothing but the arithmetic.

use super::order::eliminate;
use std::cmp::Ordering;

/// The matrix, in the order that its unknowns are eliminated in, and its factor in the same room.
pub(super) struct Factor {
    /// Where each unknown stands in that order.
    order: Vec<u32>,
    /// Where each column's entries below the diagonal begin, among all of those.
    starts: Vec<u32>,
    /// The row of each.
    rows: Vec<u32>,
    /// The entries, to be filled before [`Factor::factorise`]: the diagonal, then those below it by
    /// columns, with room for what elimination adds, and last the sink. Afterwards `1 / D` and `L`.
    pub(super) entries: Vec<f64>,
    /// For each pair of entries of each column, the entry that their product is taken from.
    targets: Vec<u32>,
    /// A right side in the order of elimination.
    sorted: Vec<f64>,
}

impl Factor {
    /// Analyses a pattern of off-diagonal pairs (any order, repeats allowed). At least size 1.
    pub(super) fn new(size: usize, pairs: &[(u32, u32)]) -> Self {
        let steps = eliminate(size, pairs);
        let mut order = vec![0; size];
        for (place, step) in steps.iter().enumerate() {
            order[step.unknown as usize] = place as u32;
        }
        let (mut starts, mut rows) = (vec![0], Vec::new());
        for step in &steps {
            let from = rows.len();
            rows.extend(step.later.iter().map(|&later| order[later as usize]));
            rows[from..].sort_unstable();
            starts.push(rows.len() as u32);
        }
        let mut factor = Self {
            entries: vec![0.0; size + rows.len() + 1],
            sorted: vec![0.0; size],
            targets: Vec::new(),
            order,
            starts,
            rows,
        };
        factor.targets = factor.list_targets();
        factor
    }

    fn size(&self) -> usize {
        self.order.len()
    }

    /// Where the entry of a pair stands in [`Factor::entries`].
    pub(super) fn place(&self, i: u32, j: u32) -> u32 {
        self.sorted_place(self.order[i as usize], self.order[j as usize])
    }

    /// The same, of places in the order of elimination.
    fn sorted_place(&self, i: u32, j: u32) -> u32 {
        let (column, row) = (i.min(j) as usize, i.max(j));
        if i == j {
            return i;
        }
        let (start, end) = (self.starts[column], self.starts[column + 1]);
        let rows = &self.rows[start as usize..end as usize];
        self.size() as u32 + start + rows.partition_point(|&other| other < row) as u32
    }

    /// Where [`Factor::entries`] takes what belongs to no pair of unknowns.
    pub(super) fn sink(&self) -> u32 {
        self.entries.len() as u32 - 1
    }

    fn list_targets(&self) -> Vec<u32> {
        let mut targets = Vec::new();
        for ends in self.starts.windows(2) {
            let rows = &self.rows[ends[0] as usize..ends[1] as usize];
            for (n, &i) in rows.iter().enumerate() {
                targets.extend(rows[n..].iter().map(|&j| self.sorted_place(i, j)));
            }
        }
        targets
    }

    /// Adds `siemens` to every entry of the diagonal.
    pub(super) fn damp(&mut self, siemens: f64) {
        let size = self.size();
        for entry in &mut self.entries[..size] {
            *entry += siemens;
        }
    }

    /// Factors the entries; false where the matrix is not positive definite.
    pub(super) fn factorise(&mut self) -> bool {
        let mut targets = &self.targets[..];
        let mut lower = self.size();
        for (column, ends) in self.starts.windows(2).enumerate() {
            let pivot = self.entries[column];
            // A pivot that is no number is not above zero either.
            if pivot.partial_cmp(&0.0) != Some(Ordering::Greater) {
                return false;
            }
            let inverse = 1.0 / pivot;
            self.entries[column] = inverse;
            let end = lower + (ends[1] - ends[0]) as usize;
            while lower < end {
                let part = self.entries[lower] * inverse;
                let (own, rest) = targets.split_at(end - lower);
                for (offset, &target) in own.iter().enumerate() {
                    let taken = part * self.entries[lower + offset];
                    self.entries[target as usize] -= taken;
                }
                targets = rest;
                self.entries[lower] = part;
                lower += 1;
            }
        }
        true
    }

    /// Solves with the last factor, in place.
    pub(super) fn solve(&mut self, right: &mut [f64]) {
        let (inverses, lower) = self.entries.split_at(self.order.len());
        let x = &mut self.sorted;
        for (&place, value) in self.order.iter().zip(right.iter()) {
            x[place as usize] = *value;
        }
        let ends = || self.starts.windows(2);
        let columns = || ends().map(|ends| ends[0] as usize..ends[1] as usize);
        for (column, below) in columns().enumerate() {
            let value = x[column];
            for (&row, part) in self.rows[below.clone()].iter().zip(&lower[below]) {
                x[row as usize] -= part * value;
            }
        }
        for (column, below) in columns().enumerate().rev() {
            let mut value = x[column] * inverses[column];
            for (&row, part) in self.rows[below.clone()].iter().zip(&lower[below]) {
                value -= part * x[row as usize];
            }
            x[column] = value;
        }
        for (&place, value) in self.order.iter().zip(right) {
            *value = x[place as usize];
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn chain(diagonal: f64) -> Factor {
        let mut factor = Factor::new(3, &[(0, 1), (2, 1), (1, 0)]);
        for i in 0..3 {
            let place = factor.place(i, i);
            factor.entries[place as usize] = diagonal;
        }
        for (i, j) in [(0, 1), (1, 2)] {
            let place = factor.place(i, j);
            factor.entries[place as usize] = -1.0;
        }
        factor
    }

    #[test]
    fn solves_a_chain() {
        let mut factor = chain(2.0);
        assert!(factor.factorise());
        let mut x = [1.0, 0.0, 1.0];
        factor.solve(&mut x);
        assert!(x.iter().all(|value| (value - 1.0).abs() < 1e-14), "{x:?}");
    }

    #[test]
    fn tells_when_it_is_not_positive_definite() {
        assert!(!chain(1.0).factorise());
        let mut damped = chain(1.0);
        damped.damp(1.0);
        assert!(damped.factorise());
    }
}
