//! Wire colours as they are drawn: one table from IEC 60757 code to red, green and blue. No standard
//! fixes the shades on paper; these are told apart on a screen and on a colour print.

/// Code and shade.
const SHADES: [(&str, &str); 14] = [
    ("BK", "#1a1a1a"),
    ("BN", "#8a5a2b"),
    ("RD", "#d8232a"),
    ("OG", "#f58a1f"),
    ("YE", "#ffd800"),
    ("GN", "#1f9e49"),
    ("BU", "#1f66c1"),
    ("VT", "#7d3fa8"),
    ("GY", "#9a9a9a"),
    ("WH", "#ffffff"),
    ("PK", "#f5a3c0"),
    ("GD", "#c9a227"),
    ("TQ", "#2fc4c0"),
    ("SR", "#c8ccd0"),
];

/// The outline of every wire: without it white and yellow would be lost on the paper.
pub(crate) const OUTLINE: &str = "#222222";

/// Dashes of a stripe, as a tracer looks from one side: an unbroken one mixes with the base at a distance.
pub(crate) const TRACER: &str = "1.8 1.8";

/// The shade of a code; the outline's own for a code that is none.
pub(crate) fn shade(code: &str) -> &'static str {
    SHADES
        .iter()
        .find(|(c, _)| *c == code)
        .map_or(OUTLINE, |(_, s)| s)
}

/// Whether a shade is a wire's.
pub(crate) fn is_wire(colour: &str) -> bool {
    SHADES.iter().any(|(_, shade)| *shade == colour)
}
