//! One row of a table, read key by key. A key may stand in the row or once for the whole group it
//! stands in; the row's own word wins. Every fault of a row is told, then the row is left out.

mod units;

use crate::Origin;
use finding::{Basis, Finding, Keys};
use quantity::{Area, Quantity, WireSize};
use std::cell::Cell;
use std::ops::RangeInclusive;

/// A kind of row: how it is read, and what makes two rows the same thing.
pub(crate) trait Kind: Sized {
    /// The key its tables stand under, and its name in messages.
    const KEY: &'static str;
    /// Reads one row; `None` after telling what is wrong with it.
    fn read(row: &Row) -> Option<Self>;
    /// Whether `other` stands for the same part, so that it replaces this row.
    fn same(&self, other: &Self) -> bool;
}

/// Reads every row of one kind: `[[key]]` alone, or `[[key]]` with `rows = [ … ]`.
pub(crate) fn read_rows<T: Kind>(top: &Keys, default: Option<&Origin>) -> Vec<T> {
    let mut made = Vec::new();
    top.tables(T::KEY, T::KEY, |group| {
        if group.has("rows") {
            let row = |own: &Keys| T::read(&Row::new(own, Some(group), default));
            made.extend(group.tables("rows", T::KEY, row));
        } else {
            made.extend(T::read(&Row::new(group, None, default)));
        }
        Some(())
    });
    made
}

/// A row under the reader's hand. The `need_…` readers tell of a key that is not there.
pub(crate) struct Row<'a, 't> {
    own: &'a Keys<'t>,
    group: Option<&'a Keys<'t>>,
    default: Option<&'a Origin>,
    failed: Cell<bool>,
}

impl<'a, 't> Row<'a, 't> {
    fn new(own: &'a Keys<'t>, group: Option<&'a Keys<'t>>, default: Option<&'a Origin>) -> Self {
        Self {
            own,
            group,
            default,
            failed: Cell::new(false),
        }
    }

    /// The keys in which `key` is written: the row's own, else the group's.
    fn keys(&self, key: &'static str) -> &'a Keys<'t> {
        // Both are asked, so that a group's key counts as known even where every row overrides it.
        let group = self.group.filter(|g| g.has(key));
        if self.own.has(key) {
            self.own
        } else {
            group.unwrap_or(self.own)
        }
    }

    /// What the row makes, unless something it needs was missing or could not be read.
    pub fn made<T>(&self, value: T) -> Option<T> {
        (!self.failed.get()).then_some(value)
    }

    /// Marks the row as failed with an error of its own.
    pub fn refuse(&self, id: &'static str, says: &str, mend: &str) {
        self.failed.set(true);
        self.own
            .report(Finding::error(id, self.own.span(), says, mend));
    }

    /// Takes what must be there, or tells of it and gives `stand_in`, which never leaves the row.
    fn must<T>(&self, key: &'static str, value: Option<T>, example: &str, stand_in: T) -> T {
        if value.is_none() {
            self.failed.set(true);
            if !self.keys(key).has(key) {
                let says = format!("this {} does not say its “{key}”", self.own.what());
                self.own.error(
                    "missing-key",
                    self.own.span(),
                    says,
                    format!("add {key} = {example}"),
                );
            }
        }
        value.unwrap_or(stand_in)
    }

    /// A text.
    pub fn text(&self, key: &'static str) -> Option<String> {
        self.keys(key).text(key).map(|t| t.value)
    }

    /// A text that must be there.
    pub fn need_text(&self, key: &'static str, example: &str) -> String {
        self.must(
            key,
            self.text(key),
            &format!("\"{example}\""),
            String::new(),
        )
    }

    /// A list of texts, or one alone.
    pub fn texts(&self, key: &'static str) -> Vec<String> {
        self.keys(key)
            .texts(key)
            .into_iter()
            .map(|t| t.value)
            .collect()
    }

    /// A number.
    pub fn number(&self, key: &'static str, range: RangeInclusive<f64>) -> Option<f64> {
        self.keys(key).number(key, range).map(|n| n.value)
    }

    /// A number that must be there.
    pub fn need(&self, key: &'static str, range: RangeInclusive<f64>) -> f64 {
        self.must(key, self.number(key, range), "a number", 0.0)
    }

    /// A whole number that must be there.
    pub fn need_whole(&self, key: &'static str, range: RangeInclusive<u32>) -> u32 {
        let value = self.keys(key).whole(key, range).map(|n| n.value);
        self.must(key, value, "a whole number", 0)
    }

    /// A list of numbers.
    pub fn numbers(&self, key: &'static str, range: RangeInclusive<f64>) -> Vec<f64> {
        self.keys(key).numbers(key, range)
    }

    /// True or false; false where it is not written.
    pub fn flag(&self, key: &'static str) -> bool {
        self.keys(key).flag(key).is_some_and(|f| f.value)
    }

    /// One of a closed list of words, which must be there.
    pub fn need_choice<T: Copy>(&self, key: &'static str, words: &[(&str, T)]) -> T {
        let value = self.keys(key).choice(key, words).map(|c| c.value);
        self.must(key, value, &format!("\"{}\"", words[0].0), words[0].1)
    }

    /// A wire size that must be there.
    pub fn need_size(&self, key: &'static str) -> WireSize {
        let value = self.keys(key).parsed(key, WireSize::read).map(|s| s.value);
        self.must(
            key,
            value,
            "\"2.5 mm²\"",
            WireSize::Metric(Area::from_si(0.0)),
        )
    }

    /// The row's source and basis; a table of ours without them is refused.
    pub fn origin(&self) -> Origin {
        self.origin_in("source", "basis", self.default)
    }

    /// A part of the row that has its own source and basis, else those of the row.
    pub fn part_origin(&self, source: &'static str, basis: &'static str) -> Origin {
        if self.keys(source).has(source) || self.keys(basis).has(basis) {
            self.origin_in(source, basis, self.default)
        } else {
            self.origin()
        }
    }

    /// A part of the row that has its own source and basis, else `other`.
    pub fn part_origin_or(
        &self,
        source: &'static str,
        basis: &'static str,
        other: &Origin,
    ) -> Origin {
        self.origin_in(source, basis, Some(other))
    }

    fn origin_in(
        &self,
        source: &'static str,
        basis: &'static str,
        default: Option<&Origin>,
    ) -> Origin {
        let word = self
            .keys(basis)
            .choice(basis, &Basis::WORDS)
            .map(|b| b.value)
            .or(default.map(|d| d.basis));
        let text = self.text(source).or(default.map(|d| d.source.clone()));
        Origin {
            source: self.must(
                source,
                text,
                "\"where the figures come from\"",
                String::new(),
            ),
            basis: self.must(basis, word, "\"read\"", Basis::Memory),
        }
    }

    /// A list of tables inside the row; where one does not say its origin, it has `origin`.
    pub fn children<T>(
        &self,
        key: &'static str,
        origin: &Origin,
        mut reader: impl FnMut(&Row) -> Option<T>,
    ) -> Vec<T> {
        self.keys(key)
            .tables(key, key, |own| reader(&Row::new(own, None, Some(origin))))
    }
}
