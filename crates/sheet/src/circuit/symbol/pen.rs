//! The pen that symbols are drawn with: figures around an anchor, in one line width.

use crate::geometry::{Point, at};
use crate::svg::{Svg, number, points};

/// Width of a symbol's lines and of connections inside a part, mm.
pub(crate) const THIN: f64 = 0.35;

/// Draws around an anchor.
pub(crate) struct Pen<'a> {
    svg: &'a mut Svg,
    anchor: Point,
}

impl<'a> Pen<'a> {
    pub fn new(svg: &'a mut Svg, anchor: Point) -> Self {
        Self { svg, anchor }
    }

    fn moved(&self, (x, y): (f64, f64)) -> Point {
        at(self.anchor.x + x, self.anchor.y + y)
    }

    fn trace(&mut self, through: &[(f64, f64)], width: f64, more: &[(&str, &str)]) {
        let through: Vec<Point> = through.iter().map(|p| self.moved(*p)).collect();
        let mut attributes = vec![
            ("points", points(&through)),
            ("fill", "none".to_owned()),
            ("stroke", "black".to_owned()),
            ("stroke-width", number(width)),
        ];
        attributes.extend(more.iter().map(|(k, v)| (*k, (*v).to_owned())));
        self.svg.empty("polyline", &attributes);
    }

    /// A line through points.
    pub fn line(&mut self, through: &[(f64, f64)]) {
        self.trace(through, THIN, &[]);
    }

    /// A line of another width.
    pub fn heavy(&mut self, through: &[(f64, f64)], width: f64) {
        self.trace(through, width, &[]);
    }

    /// A broken line: a mechanical link.
    pub fn link(&mut self, through: &[(f64, f64)]) {
        self.trace(through, THIN, &[("stroke-dasharray", "1.5 1")]);
    }

    fn shape(&mut self, name: &str, mut attributes: Vec<(&'static str, String)>, filled: bool) {
        attributes.push(("fill", if filled { "black" } else { "white" }.to_owned()));
        attributes.push(("stroke", "black".to_owned()));
        attributes.push(("stroke-width", number(THIN)));
        self.svg.empty(name, &attributes);
    }

    /// A rectangle around a centre.
    pub fn rect(&mut self, centre: (f64, f64), (half_wide, half_tall): (f64, f64), filled: bool) {
        let corner = self.moved((centre.0 - half_wide, centre.1 - half_tall));
        let attributes = vec![
            ("x", number(corner.x)),
            ("y", number(corner.y)),
            ("width", number(2.0 * half_wide)),
            ("height", number(2.0 * half_tall)),
        ];
        self.shape("rect", attributes, filled);
    }

    /// A circle.
    pub fn circle(&mut self, centre: (f64, f64), radius: f64, filled: bool) {
        let c = self.moved(centre);
        let attributes = vec![
            ("cx", number(c.x)),
            ("cy", number(c.y)),
            ("r", number(radius)),
        ];
        self.shape("circle", attributes, filled);
    }

    /// A filled or white polygon.
    pub fn polygon(&mut self, corners: &[(f64, f64)], filled: bool) {
        let corners: Vec<Point> = corners.iter().map(|p| self.moved(*p)).collect();
        self.shape("polygon", vec![("points", points(&corners))], filled);
    }

    /// An arc of a circle from one point to another, clockwise on the paper when `clockwise`.
    pub fn arc(
        &mut self,
        from: (f64, f64),
        to: (f64, f64),
        radius: f64,
        (large, clockwise): (bool, bool),
    ) {
        let (a, b) = (self.moved(from), self.moved(to));
        let (r, large, sweep) = (number(radius), u8::from(large), u8::from(clockwise));
        let way = format!(
            "M {} {} A {r} {r} 0 {large} {sweep} {} {}",
            number(a.x),
            number(a.y),
            number(b.x),
            number(b.y)
        );
        let attributes = [
            ("d", way),
            ("fill", "none".to_owned()),
            ("stroke", "black".to_owned()),
            ("stroke-width", number(THIN)),
        ];
        self.svg.empty("path", &attributes);
    }

    /// A word centred on a point of its baseline.
    pub fn word(&mut self, centre: (f64, f64), size: f64, text: &str) {
        let c = self.moved(centre);
        let attributes = [
            ("x", number(c.x)),
            ("y", number(c.y)),
            ("font-size", number(size)),
            ("text-anchor", "middle".to_owned()),
        ];
        self.svg.text("text", &attributes, text);
    }
}
