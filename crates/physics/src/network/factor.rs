//! A sparse symmetric matrix and its Cholesky factor. The pattern is analysed once; the numbers
//! come each pass. Takes entries, gives solutions, and says whether the matrix is positive
//! definite.

use faer::dyn_stack::{MemBuffer, MemStack};
use faer::sparse::linalg::SymbolicSupernodalParams;
use faer::sparse::linalg::cholesky::{
    CholeskySymbolicParams, LltRef, SymbolicCholesky, SymmetricOrdering,
    factorize_symbolic_cholesky,
};
use faer::sparse::{SparseColMatRef, SymbolicSparseColMatRef};
use faer::{Conj, MatMut, Par, Side};

/// The matrix, lower triangle by columns, and the room its factor is made in.
pub(super) struct Factor {
    size: usize,
    col_start: Vec<u32>,
    rows: Vec<u32>,
    /// The entries, to be filled before [`Factor::factorise`], and last the sink.
    pub(super) entries: Vec<f64>,
    diagonal: Vec<usize>,
    symbolic: SymbolicCholesky<u32>,
    lower: Vec<f64>,
    scratch: MemBuffer,
}

impl Factor {
    /// Analyses a pattern of off-diagonal pairs (any order, repeats allowed). At least size 1.
    pub(super) fn new(size: usize, pairs: &[(u32, u32)]) -> Self {
        let mut places: Vec<(u32, u32)> = pairs
            .iter()
            .map(|&(i, j)| (i.min(j), i.max(j)))
            .chain((0..size as u32).map(|i| (i, i)))
            .collect();
        places.sort_unstable();
        places.dedup();
        let mut col_start = vec![0_u32; size + 1];
        for &(column, _) in &places {
            col_start[column as usize + 1] += 1;
        }
        for column in 0..size {
            col_start[column + 1] += col_start[column];
        }
        let rows: Vec<u32> = places.iter().map(|&(_, row)| row).collect();
        // The diagonal leads each column of a sorted lower triangle.
        let diagonal = col_start[..size]
            .iter()
            .map(|&start| start as usize)
            .collect();
        let pattern = SymbolicSparseColMatRef::new_checked(size, size, &col_start, None, &rows);
        let symbolic = analyse(pattern);
        let need = symbolic
            .factorize_numeric_llt_scratch::<f64>(Par::Seq, Default::default())
            .or(symbolic.solve_in_place_scratch::<f64>(1, Par::Seq));
        Self {
            size,
            entries: vec![0.0; rows.len() + 1],
            diagonal,
            lower: vec![0.0; symbolic.len_val()],
            scratch: MemBuffer::new(need),
            col_start,
            rows,
            symbolic,
        }
    }

    /// Where the entry of a pair stands in [`Factor::entries`].
    pub(super) fn place(&self, i: u32, j: u32) -> u32 {
        let (column, row) = (i.min(j) as usize, i.max(j));
        let (start, end) = (self.col_start[column], self.col_start[column + 1]);
        let rows = &self.rows[start as usize..end as usize];
        start + rows.partition_point(|&other| other < row) as u32
    }

    /// Where [`Factor::entries`] takes what belongs to no pair of unknowns.
    pub(super) fn sink(&self) -> u32 {
        self.rows.len() as u32
    }

    /// Adds `siemens` to every entry of the diagonal.
    pub(super) fn damp(&mut self, siemens: f64) {
        for &place in &self.diagonal {
            self.entries[place] += siemens;
        }
    }

    /// Factors the entries; false where the matrix is not positive definite.
    pub(super) fn factorise(&mut self) -> bool {
        let (size, starts, rows) = (self.size, &self.col_start, &self.rows);
        let pattern = SymbolicSparseColMatRef::new_checked(size, size, starts, None, rows);
        self.symbolic
            .factorize_numeric_llt::<f64>(
                &mut self.lower,
                SparseColMatRef::new(pattern, &self.entries[..rows.len()]),
                Side::Lower,
                Default::default(),
                Par::Seq,
                MemStack::new(&mut self.scratch),
                Default::default(),
            )
            .is_ok()
    }

    /// Solves with the last factor, in place.
    pub(super) fn solve(&mut self, right: &mut [f64]) {
        LltRef::new(&self.symbolic, &self.lower).solve_in_place_with_conj(
            Conj::No,
            MatMut::from_column_major_slice_mut(right, self.size, 1),
            Par::Seq,
            MemStack::new(&mut self.scratch),
        );
    }
}

fn analyse(pattern: SymbolicSparseColMatRef<'_, u32>) -> SymbolicCholesky<u32> {
    let params = CholeskySymbolicParams {
        // A loom is nearly a tree: dense blocks would be tiny and cost more than they save.
        supernodal_flop_ratio_threshold:
            faer::sparse::linalg::SupernodalThreshold::FORCE_SIMPLICIAL,
        supernodal_params: SymbolicSupernodalParams::default(),
        ..Default::default()
    };
    factorize_symbolic_cholesky(pattern, Side::Lower, SymmetricOrdering::Amd, params)
        .expect("a network's pattern is far smaller than any index or memory limit")
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
