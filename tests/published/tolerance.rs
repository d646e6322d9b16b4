//! How far an answer may lie from a published one, as the lists write it: "1e-4 rel", "0.1 %",
//! "0.5 abs", "0.1 A", "exact (table)".

use std::fmt;

/// An allowed distance.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) enum Tolerance {
    /// A part of the published value.
    Relative(f64),
    /// In the published value's own unit.
    Absolute(f64),
}

/// What "exact" leaves for arithmetic in binary fractions.
const EXACT: Tolerance = Tolerance::Relative(1e-9);

impl Tolerance {
    /// Reads the first clause of a list's `tol`.
    pub(crate) fn read(text: &str) -> Option<Self> {
        if text.starts_with("exact") {
            return Some(EXACT);
        }
        let mut words = text.split([' ', '/']).filter(|w| !w.is_empty());
        let number: f64 = words.next()?.parse().ok()?;
        match words.next()? {
            "%" => Some(Self::Relative(number / 100.0)),
            "rel" => Some(Self::Relative(number)),
            "abs" | "A" | "C" | "V" => Some(Self::Absolute(number)),
            _ => None,
        }
    }

    /// From a relative tolerance as `90_cases` writes it: 0 is exact.
    pub(crate) fn relative(part: f64) -> Self {
        if part == 0.0 {
            EXACT
        } else {
            Self::Relative(part)
        }
    }

    /// Whether two values agree.
    pub(crate) fn agree(self, ours: f64, published: f64) -> bool {
        let most = match self {
            Self::Relative(part) => part * published.abs(),
            Self::Absolute(most) => most,
        };
        (ours - published).abs() <= most + 1e-12
    }
}

impl fmt::Display for Tolerance {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Relative(part) => write!(f, "{:.4} %", part * 100.0),
            Self::Absolute(most) => write!(f, "{most}"),
        }
    }
}

/// Asserts that two values agree, and says which did not.
pub(crate) fn near(what: &str, ours: f64, published: f64, within: Tolerance) {
    assert!(
        within.agree(ours, published),
        "{what}: ours {ours}, published {published}, within {within}"
    );
}

#[test]
fn every_form_that_the_lists_use_is_read() {
    use Tolerance::{Absolute, Relative};
    assert_eq!(Tolerance::read("1e-4 rel"), Some(Relative(1e-4)));
    assert_eq!(
        Tolerance::read("0.1 % (print rounds up)"),
        Some(Relative(0.001))
    );
    assert_eq!(Tolerance::read("0.5 C / 0.1 ft"), Some(Absolute(0.5)));
    assert_eq!(Tolerance::read("exact (table)"), Some(EXACT));
    assert_eq!(Tolerance::read("about right"), None);
    assert!(Relative(0.01).agree(101.0, 100.0) && !Relative(0.01).agree(101.1, 100.0));
    assert!(!EXACT.agree(1.0 + 1e-6, 1.0));
}
