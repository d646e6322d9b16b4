//! Points, boxes and straight pieces on a sheet, in millimetres from its upper left corner; `y` runs down.

/// A point.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) struct Point {
    pub x: f64,
    pub y: f64,
}

/// Short for a point.
pub(crate) fn at(x: f64, y: f64) -> Point {
    Point { x, y }
}

/// An upright box.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) struct Frame {
    pub left: f64,
    pub top: f64,
    pub right: f64,
    pub bottom: f64,
}

impl Frame {
    /// A box from its corners, given in any order.
    pub fn around(a: Point, b: Point) -> Self {
        Self {
            left: a.x.min(b.x),
            top: a.y.min(b.y),
            right: a.x.max(b.x),
            bottom: a.y.max(b.y),
        }
    }

    /// Grown by `by` on every side; a negative figure shrinks it.
    pub fn grown(self, by: f64) -> Self {
        Self {
            left: self.left - by,
            top: self.top - by,
            right: self.right + by,
            bottom: self.bottom + by,
        }
    }

    /// Once around it, back to where it begins.
    pub fn ring(self) -> Vec<Point> {
        let (a, b) = (at(self.left, self.top), at(self.right, self.bottom));
        vec![a, at(b.x, a.y), b, at(a.x, b.y), a]
    }

    /// Whether the two share any area.
    pub fn meets(self, other: Self) -> bool {
        self.left < other.right
            && other.left < self.right
            && self.top < other.bottom
            && other.top < self.bottom
    }

    /// Whether `other` lies wholly inside.
    pub fn holds(self, other: Self) -> bool {
        self.left <= other.left
            && other.right <= self.right
            && self.top <= other.top
            && other.bottom <= self.bottom
    }
}

/// The edge inside which everything stays: 20 mm on the filing side, 10 mm on the others (ISO 5457).
pub(crate) fn border(width: f64, height: f64) -> Frame {
    Frame {
        left: 20.0,
        top: 10.0,
        right: width - 10.0,
        bottom: height - 10.0,
    }
}

/// The straight pieces of a line, each as the box that its width covers. Lines on a sheet run
/// upright or level, so that nothing is lost by this.
#[cfg(test)]
pub(crate) fn pieces(points: &[Point], width: f64) -> impl Iterator<Item = Frame> + '_ {
    points
        .windows(2)
        .map(move |p| Frame::around(p[0], p[1]).grown(width / 2.0))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn touching_is_not_meeting() {
        let a = Frame::around(at(0.0, 0.0), at(2.0, 2.0));
        let b = Frame::around(at(2.0, 0.0), at(4.0, 2.0));
        assert!(!a.meets(b));
        assert!(a.grown(0.1).meets(b));
    }
}
