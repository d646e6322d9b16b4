//! The shape of everything told: a finding, its weight and its place.

use crate::near::word_of;
use std::fmt;
use std::ops::Range;

/// How much a finding weighs. Ordered: the heaviest first.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Weight {
    /// Do not build or use.
    Stop,
    /// Mend before it is relied on.
    Mend,
    /// Something to know.
    Note,
}

impl fmt::Display for Weight {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(match self {
            Self::Stop => "stop",
            Self::Mend => "mend",
            Self::Note => "note",
        })
    }
}

/// A stretch of bytes in a source text.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Span {
    /// First byte.
    pub start: usize,
    /// One past the last byte.
    pub end: usize,
}

impl Span {
    /// As a range for slicing.
    pub fn range(self) -> Range<usize> {
        self.start..self.end
    }

    /// Line and column of the start, both from 1; columns count characters.
    pub fn line_column(self, text: &str) -> (usize, usize) {
        let mut start = self.start.min(text.len());
        while !text.is_char_boundary(start) {
            start -= 1;
        }
        let before = &text[..start];
        let line = before.matches('\n').count() + 1;
        let column = before.rsplit('\n').next().unwrap_or("").chars().count() + 1;
        (line, column)
    }
}

impl From<Range<usize>> for Span {
    fn from(r: Range<usize>) -> Self {
        Self {
            start: r.start,
            end: r.end,
        }
    }
}

/// A value and where it was written.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Spanned<T> {
    /// The value.
    pub value: T,
    /// Where it stands.
    pub span: Span,
}

impl<T> Spanned<T> {
    /// A value at a place.
    pub fn new(value: T, span: Span) -> Self {
        Self { value, span }
    }

    /// Another value at the same place.
    pub fn map<U>(self, f: impl FnOnce(T) -> U) -> Spanned<U> {
        Spanned::new(f(self.value), self.span)
    }
}

/// Where a finding is.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum At {
    /// In the text that was read.
    Span(Span),
    /// At named things of the loom (wires, fuses, parts, places).
    Names(Vec<String>),
}

/// How a value came to be known.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Basis {
    /// Seen in a retrieved document.
    Read,
    /// Recalled, not seen: confirm before relying on it.
    Memory,
    /// The trade does it; no document is claimed.
    Common,
    /// Arithmetic on the former.
    Derived,
    /// The user's own table or plan.
    User,
}

impl Basis {
    /// Every basis with the word that tables and reports use.
    pub const WORDS: [(&'static str, Self); 5] = [
        ("read", Self::Read),
        ("from memory", Self::Memory),
        ("common practice", Self::Common),
        ("derived", Self::Derived),
        ("user", Self::User),
    ];
}

impl fmt::Display for Basis {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(word_of(&Self::WORDS, self))
    }
}

/// Something to know, with what to do about it.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Finding {
    /// Stable short name: "unfused-feeder", "unknown-key".
    pub id: &'static str,
    /// How much it weighs.
    pub weight: Weight,
    /// Where.
    pub at: At,
    /// The fault in one phrase or sentence.
    pub says: String,
    /// What to do.
    pub mend: String,
    /// On whose word: a rule, a table, "common practice, no source".
    pub source: String,
}

impl Finding {
    /// A plan or stock error at a place in the text. It stops: the text can't be used as it is.
    pub fn error(
        id: &'static str,
        span: Span,
        says: impl Into<String>,
        mend: impl Into<String>,
    ) -> Self {
        Self {
            id,
            weight: Weight::Stop,
            at: At::Span(span),
            says: says.into(),
            mend: mend.into(),
            source: String::new(),
        }
    }

    /// The span, if it is at one.
    pub fn span(&self) -> Option<Span> {
        match self.at {
            At::Span(s) => Some(s),
            At::Names(_) => None,
        }
    }

    /// The names, if it is at named things.
    pub fn names(&self) -> &[String] {
        match &self.at {
            At::Names(n) => n,
            At::Span(_) => &[],
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn line_and_column_count_characters() {
        let text = "a = 1\nµ = \"x\"\n";
        let at = text.find('"').unwrap();
        assert_eq!(
            Span {
                start: at,
                end: at + 1
            }
            .line_column(text),
            (2, 5)
        );
        assert_eq!(
            Span {
                start: 999,
                end: 999
            }
            .line_column(text),
            (3, 1)
        );
    }
}
