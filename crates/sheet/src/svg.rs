//! A small writer of SVG. Takes elements in drawing order, gives well-formed text with fixed decimals,
//! the same bytes each time.

use crate::dark;
use crate::geometry::{Frame, Point, at};
use std::collections::BTreeSet;
use std::fmt::Write;

/// An SVG document being written.
pub(crate) struct Svg {
    out: String,
    open: Vec<&'static str>,
    colours: BTreeSet<String>,
    /// Where the style for dark ground goes.
    style: usize,
}

/// A number with two decimals at most and no minus before a zero: hundredths of a millimetre are
/// finer than any line.
pub(crate) fn number(v: f64) -> String {
    let shown = format!("{v:.2}");
    let kept = shown.trim_end_matches('0').trim_end_matches('.');
    if kept == "-0" {
        "0".to_owned()
    } else {
        kept.to_owned()
    }
}

fn escape(text: &str) -> String {
    let mut out = String::with_capacity(text.len());
    for c in text.chars() {
        match c {
            '&' => out.push_str("&amp;"),
            '<' => out.push_str("&lt;"),
            '>' => out.push_str("&gt;"),
            '"' => out.push_str("&quot;"),
            // XML 1.0 allows no other control characters, not even escaped.
            c if c.is_control() => out.push(' '),
            c => out.push(c),
        }
    }
    out
}

/// Points as the `points` attribute wants them.
pub(crate) fn points(points: &[Point]) -> String {
    let each: Vec<String> = points
        .iter()
        .map(|p| format!("{},{}", number(p.x), number(p.y)))
        .collect();
    each.join(" ")
}

impl Svg {
    /// A document of this size, with its name and description for screen readers.
    /// Its ids start with `name`, so that several can stand in one page.
    pub fn new(name: &str, size: (f64, f64), title: &str, desc: &str) -> Self {
        let whole = Frame::around(at(0.0, 0.0), at(size.0, size.1));
        Self::window(name, whole, title, desc)
    }

    /// A document that shows this part of the paper.
    pub fn window(name: &str, part: Frame, title: &str, desc: &str) -> Self {
        Self::with_role(name, part, (title, desc), "img")
    }

    /// The same of a drawing with links in it, which are to be reached.
    pub fn pressed(name: &str, part: Frame, title: &str, desc: &str) -> Self {
        Self::with_role(name, part, (title, desc), "group")
    }

    fn with_role(name: &str, part: Frame, (title, desc): (&str, &str), role: &str) -> Self {
        let size = (part.right - part.left, part.bottom - part.top);
        let (w, h) = (number(size.0), number(size.1));
        let corner = (number(part.left), number(part.top));
        let mut svg = Self {
            out: String::new(),
            open: Vec::new(),
            colours: BTreeSet::new(),
            style: 0,
        };
        let of_page = [
            ("xmlns", "http://www.w3.org/2000/svg".to_owned()),
            ("width", format!("{w}mm")),
            ("height", format!("{h}mm")),
            ("viewBox", format!("{} {} {w} {h}", corner.0, corner.1)),
            ("role", role.to_owned()),
            ("aria-labelledby", format!("{name}-title {name}-desc")),
            ("font-family", crate::text::FONTS.to_owned()),
        ];
        svg.open("svg", &of_page);
        svg.text("title", &[("id", format!("{name}-title"))], title);
        svg.text("desc", &[("id", format!("{name}-desc"))], desc);
        svg.style = svg.out.len();
        svg
    }

    fn start(&mut self, name: &str, attributes: &[(&str, String)]) {
        self.out.push_str(&"  ".repeat(self.open.len()));
        let _ = write!(self.out, "<{name}");
        for (key, value) in attributes {
            let _ = write!(self.out, " {key}=\"{}\"", escape(value));
            if matches!(*key, "fill" | "stroke") && !self.colours.contains(value) {
                self.colours.insert(value.clone());
            }
        }
    }

    /// Opens an element that holds others.
    pub fn open(&mut self, name: &'static str, attributes: &[(&str, String)]) {
        self.start(name, attributes);
        self.out.push_str(">\n");
        self.open.push(name);
    }

    /// Closes the element that was opened last.
    pub fn close(&mut self) {
        if let Some(name) = self.open.pop() {
            self.out.push_str(&"  ".repeat(self.open.len()));
            let _ = writeln!(self.out, "</{name}>");
        }
    }

    /// An element that holds nothing.
    pub fn empty(&mut self, name: &str, attributes: &[(&str, String)]) {
        self.start(name, attributes);
        self.out.push_str("/>\n");
    }

    /// An element that holds text.
    pub fn text(&mut self, name: &str, attributes: &[(&str, String)], text: &str) {
        self.start(name, attributes);
        let _ = writeln!(self.out, ">{}</{name}>", escape(text));
    }

    /// The whole document.
    pub fn finish(mut self) -> String {
        while !self.open.is_empty() {
            self.close();
        }
        let style = format!("  <style>{}</style>\n", dark::style(&self.colours));
        self.out.insert_str(self.style, &style);
        self.out
    }
}
