//! Straight lines between the rows of a table.
//!
//! `y = y₁ + (x − x₁) / (x₂ − x₁) · (y₂ − y₁)`.
//!
//! | symbol | meaning | unit |
//! |---|---|---|
//! | x, y | what a row is looked up by, what it gives | any |
//!
//! Range: rows in rising order of x, two at least. Beyond them a table is held at its end row, or goes
//! on along its first line. Source: arithmetic.

/// A table's rows (x, y).
pub type Rows = [(f64, f64)];

/// The value at `x`, held at the end rows beyond them.
pub fn held(rows: &Rows, x: f64) -> f64 {
    let (first, last) = (rows[0], rows[rows.len() - 1]);
    onwards(rows, x.clamp(first.0, last.0))
}

/// The value at `x`, held above the last row; below the first the first line goes on.
pub fn down(rows: &Rows, x: f64) -> f64 {
    onwards(rows, x.min(rows[rows.len() - 1].0))
}

fn onwards(rows: &Rows, x: f64) -> f64 {
    let above = rows.partition_point(|row| row.0 < x);
    let above = above.clamp(1, rows.len() - 1);
    let (low, high) = (rows[above - 1], rows[above]);
    low.1 + (x - low.0) / (high.0 - low.0) * (high.1 - low.1)
}

#[cfg(test)]
mod tests {
    use super::*;

    const ROWS: [(f64, f64); 3] = [(1.0, 10.0), (2.0, 30.0), (4.0, 20.0)];

    #[test]
    fn a_row_is_itself_and_halfway_is_the_mean() {
        for (x, y) in ROWS {
            assert_eq!(held(&ROWS, x), y);
            assert_eq!(down(&ROWS, x), y);
        }
        assert_eq!(held(&ROWS, 1.5), 20.0);
        assert_eq!(held(&ROWS, 3.0), 25.0);
    }

    #[test]
    fn beyond_the_rows_it_is_held_or_goes_on_down() {
        assert_eq!((held(&ROWS, 0.0), held(&ROWS, 9.0)), (10.0, 20.0));
        assert_eq!((down(&ROWS, 0.0), down(&ROWS, 9.0)), (-10.0, 20.0));
    }
}
