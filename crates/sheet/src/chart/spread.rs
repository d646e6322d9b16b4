//! Labels side by side that don't overlap, each as near its place as the others let it: least squares with an
//! order, by pooling neighbours (R. E. Barlow and others, “Statistical Inference under Order Restrictions”,
//! 1972, from memory).

/// Gives the middles of labels that want to stand at `wanted` with widths `wide`, in order between `left` and
/// `right`. If they are wider than that together, they reach beyond `right`.
pub(crate) fn spread(wanted: &[(f64, f64)], (left, right): (f64, f64)) -> Vec<f64> {
    // Packed tight from nought: what is left to find is how far each is moved, which never falls.
    let mut packed = 0.0;
    let tight: Vec<f64> = wanted
        .iter()
        .map(|(_, wide)| {
            packed += wide;
            packed - wide / 2.0
        })
        .collect();
    // Runs that are moved as one: sum of what they want, and how many they are.
    let mut runs: Vec<(f64, usize)> = Vec::new();
    for ((middle, _), at) in wanted.iter().zip(&tight) {
        let mut run = (middle - at, 1);
        while let Some(before) = runs.last().filter(|b| mean(b) >= mean(&run)) {
            run = (run.0 + before.0, run.1 + before.1);
            runs.pop();
        }
        runs.push(run);
    }
    let most = (right - packed).max(left);
    let moved = runs
        .iter()
        .flat_map(|run| std::iter::repeat_n(mean(run).clamp(left, most), run.1));
    moved.zip(tight).map(|(by, at)| at + by).collect()
}

fn mean(run: &(f64, usize)) -> f64 {
    run.0 / run.1 as f64
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn labels_with_room_stay_and_crowded_ones_part_evenly() {
        let free = spread(&[(10.0, 4.0), (20.0, 4.0)], (0.0, 30.0));
        assert_eq!(free, [10.0, 20.0]);
        let crowd = spread(&[(10.0, 4.0), (10.0, 4.0), (10.0, 4.0)], (0.0, 30.0));
        assert_eq!(crowd, [6.0, 10.0, 14.0]);
    }

    #[test]
    fn nothing_leaves_the_ends() {
        assert_eq!(spread(&[(0.0, 4.0), (0.0, 4.0)], (0.0, 30.0)), [2.0, 6.0]);
        assert_eq!(
            spread(&[(30.0, 4.0), (30.0, 4.0)], (0.0, 30.0)),
            [24.0, 28.0]
        );
    }
}
