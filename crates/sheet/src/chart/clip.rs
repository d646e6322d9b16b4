//! What of a line or an area lies inside a box.

use crate::geometry::{Frame, Point, at};

/// The part of a straight piece inside a box, if any (Y.-D. Liang, B. Barsky, “A New Concept and Method for Line
/// Clipping”, 1984, from memory).
pub(crate) fn piece(frame: Frame, a: Point, b: Point) -> Option<(Point, Point)> {
    let (dx, dy) = (b.x - a.x, b.y - a.y);
    let sides = [
        (-dx, a.x - frame.left),
        (dx, frame.right - a.x),
        (-dy, a.y - frame.top),
        (dy, frame.bottom - a.y),
    ];
    let (mut first, mut last) = (0.0_f64, 1.0_f64);
    for (outwards, room) in sides {
        if outwards == 0.0 && room < 0.0 {
            return None;
        }
        if outwards < 0.0 {
            first = first.max(room / outwards);
        }
        if outwards > 0.0 {
            last = last.min(room / outwards);
        }
    }
    let along = |t: f64| at(a.x + t * dx, a.y + t * dy);
    (first <= last).then(|| (along(first), along(last)))
}

/// The runs of a line inside a box.
pub(crate) fn line(frame: Frame, points: &[Point]) -> Vec<Vec<Point>> {
    let mut runs: Vec<Vec<Point>> = Vec::new();
    for pair in points.windows(2) {
        let Some((a, b)) = piece(frame, pair[0], pair[1]) else {
            continue;
        };
        match runs.last_mut().filter(|r| r.last() == Some(&a)) {
            Some(run) => run.push(b),
            None => runs.push(vec![a, b]),
        }
    }
    runs
}

/// An area inside a box (I. Sutherland, G. Hodgman, “Reentrant Polygon Clipping”, 1974, from memory).
pub(crate) fn area(frame: Frame, points: &[Point]) -> Vec<Point> {
    type Side = fn(Frame, Point) -> f64;
    let sides: [Side; 4] = [
        |f, p| p.x - f.left,
        |f, p| f.right - p.x,
        |f, p| p.y - f.top,
        |f, p| f.bottom - p.y,
    ];
    let mut kept = points.to_vec();
    for side in sides {
        let all = std::mem::take(&mut kept);
        for (i, p) in all.iter().enumerate() {
            let q = all[(i + 1) % all.len()];
            let (here, there) = (side(frame, *p), side(frame, q));
            if here >= 0.0 {
                kept.push(*p);
            }
            if (here >= 0.0) != (there >= 0.0) {
                let t = here / (here - there);
                kept.push(at(p.x + t * (q.x - p.x), p.y + t * (q.y - p.y)));
            }
        }
    }
    kept
}

/// Whether the edge of an area runs through a box.
pub(crate) fn touches(frame: Frame, points: &[Point]) -> bool {
    let next = |i: usize| points[(i + 1) % points.len()];
    (0..points.len()).any(|i| piece(frame, points[i], next(i)).is_some())
}

/// Whether the middle of a box lies in an area: whether a ray from it leaves the area an odd number of times.
pub(crate) fn around(points: &[Point], frame: Frame) -> bool {
    let (x, y) = (
        (frame.left + frame.right) / 2.0,
        (frame.top + frame.bottom) / 2.0,
    );
    let next = |i: usize| points[(i + 1) % points.len()];
    let leaves = |i: &usize| {
        let (a, b) = (points[*i], next(*i));
        (a.y > y) != (b.y > y) && x < a.x + (b.x - a.x) * (y - a.y) / (b.y - a.y)
    };
    (0..points.len()).filter(leaves).count() % 2 == 1
}

#[cfg(test)]
mod tests {
    use super::*;

    const BOX: Frame = Frame {
        left: 0.0,
        top: 0.0,
        right: 10.0,
        bottom: 10.0,
    };

    #[test]
    fn a_line_that_leaves_and_comes_back_has_two_runs() {
        let runs = line(
            BOX,
            &[at(5.0, 5.0), at(15.0, 5.0), at(15.0, 8.0), at(5.0, 8.0)],
        );
        assert_eq!(
            runs,
            [
                vec![at(5.0, 5.0), at(10.0, 5.0)],
                vec![at(10.0, 8.0), at(5.0, 8.0)]
            ]
        );
    }

    #[test]
    fn an_area_is_cut_at_the_sides() {
        let cut = area(BOX, &[at(5.0, -5.0), at(20.0, 5.0), at(5.0, 5.0)]);
        assert!(
            cut.iter()
                .all(|p| BOX.grown(1e-9).holds(Frame::around(*p, *p)))
        );
        let within = [
            at(-9.0, -9.0),
            at(30.0, -9.0),
            at(30.0, 30.0),
            at(-9.0, 30.0),
        ];
        assert!(around(&within, BOX) && !touches(BOX, &within));
        assert!(touches(BOX, &cut));
        assert!(area(BOX, &[at(11.0, 0.0), at(12.0, 0.0), at(12.0, 3.0)]).is_empty());
    }
}
