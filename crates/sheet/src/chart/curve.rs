//! Curves with no more points than the eye can tell apart: two thousand reckoned moments would make a file
//! that is large for nothing. Ramer's and Douglas and Peucker's way.

use crate::geometry::Point;

/// How far a left-out point may lie from the line, mm: a tenth of its width.
const TOLERANCE: f64 = 0.05;

/// The points that a curve needs, in their order.
pub(crate) fn simplified(points: &[Point]) -> Vec<Point> {
    let Some(last) = points.len().checked_sub(1) else {
        return Vec::new();
    };
    let mut kept = vec![false; points.len()];
    (kept[0], kept[last]) = (true, true);
    let mut open = vec![(0, last)];
    while let Some((a, b)) = open.pop() {
        let far = |i: &usize| distance(points[*i], points[a], points[b]);
        let farthest = (a + 1..b).max_by(|i, j| far(i).total_cmp(&far(j)));
        if let Some(i) = farthest.filter(|i| far(i) > TOLERANCE) {
            kept[i] = true;
            open.extend([(a, i), (i, b)]);
        }
    }
    let needed = points.iter().zip(kept).filter(|(_, k)| *k);
    needed.map(|(p, _)| *p).collect()
}

/// From a point to the straight piece between two others.
fn distance(p: Point, a: Point, b: Point) -> f64 {
    let (dx, dy) = (b.x - a.x, b.y - a.y);
    let length = dx * dx + dy * dy;
    let along = if length > 0.0 {
        (((p.x - a.x) * dx + (p.y - a.y) * dy) / length).clamp(0.0, 1.0)
    } else {
        0.0
    };
    (p.x - a.x - along * dx).hypot(p.y - a.y - along * dy)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::geometry::at;

    #[test]
    fn a_straight_run_keeps_its_ends_and_a_corner_is_kept() {
        let run: Vec<Point> = (0..100).map(|i| at(f64::from(i), 5.0)).collect();
        assert_eq!(simplified(&run), [at(0.0, 5.0), at(99.0, 5.0)]);
        let corner = [at(0.0, 0.0), at(1.0, 0.0), at(2.0, 0.0), at(2.0, 3.0)];
        assert_eq!(simplified(&corner), [corner[0], corner[2], corner[3]]);
        assert_eq!(simplified(&[]), []);
    }
}
