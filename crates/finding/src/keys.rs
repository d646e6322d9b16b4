//! The keys of one table: typed getters that tell what is wrong with a value and go on.

use crate::near::nearest;
use crate::tell::{Basis, Finding, Span, Spanned};
use quantity::{Bound, Misread, Quantity};
use std::cell::RefCell;
use std::collections::BTreeSet;
use toml::de::{DeTable, DeValue};

/// The keys of one table, taken one by one; `finish` reports those that nobody asked for.
pub struct Keys<'t> {
    table: &'t DeTable<'t>,
    span: Span,
    what: &'static str,
    used: RefCell<BTreeSet<&'static str>>,
    errors: &'t RefCell<Vec<Finding>>,
}

impl<'t> Keys<'t> {
    /// The keys of a table; what is wrong with them goes to `errors`.
    pub(crate) fn new(
        what: &'static str,
        table: &'t DeTable<'t>,
        span: Span,
        errors: &'t RefCell<Vec<Finding>>,
    ) -> Self {
        Self {
            table,
            span,
            what,
            used: RefCell::default(),
            errors,
        }
    }

    /// Where the table stands.
    pub fn span(&self) -> Span {
        self.span
    }

    /// What the table is, for messages: "circuit", "stretch".
    pub fn what(&self) -> &'static str {
        self.what
    }

    /// Adds an error found by the reader of this table.
    pub fn report(&self, error: Finding) {
        self.errors.borrow_mut().push(error);
    }

    /// Adds an error at a value.
    pub fn error(
        &self,
        id: &'static str,
        span: Span,
        says: impl Into<String>,
        mend: impl Into<String>,
    ) {
        self.report(Finding::error(id, span, says, mend));
    }

    fn get(&self, key: &'static str) -> Option<(&'t DeValue<'t>, Span)> {
        self.used.borrow_mut().insert(key);
        self.table.get(key).map(|v| (v.get_ref(), v.span().into()))
    }

    /// Whether the key is written, whatever its value.
    pub fn has(&self, key: &'static str) -> bool {
        self.get(key).is_some()
    }

    /// Where a written key's value stands.
    pub fn span_of(&self, key: &'static str) -> Option<Span> {
        self.get(key).map(|(_, span)| span)
    }

    /// Whether the key's value is a table (for keys that take a short and a long form).
    pub fn is_table(&self, key: &'static str) -> bool {
        self.get(key).is_some_and(|(v, _)| v.is_table())
    }

    /// Whether the key's value is true or false.
    pub fn is_flag(&self, key: &'static str) -> bool {
        self.get(key).is_some_and(|(v, _)| v.is_bool())
    }

    fn wrong_type(&self, key: &str, span: Span, is: &DeValue, wants: &str) {
        self.error(
            "wrong-kind",
            span,
            format!("“{key}” takes {wants}, not {}", kind_word(is)),
            format!("write {key} = {wants}"),
        );
    }

    fn missing(&self, key: &str, example: &str) {
        self.error(
            "missing-key",
            self.span,
            format!("this {} does not say its “{key}”", self.what),
            format!("add {key} = {example}"),
        );
    }

    /// A text.
    pub fn text(&self, key: &'static str) -> Option<Spanned<String>> {
        let (value, span) = self.get(key)?;
        match value {
            DeValue::String(s) if s.trim().is_empty() => {
                self.error(
                    "empty",
                    span,
                    format!("“{key}” is empty"),
                    "write something, or leave the key out",
                );
                None
            }
            DeValue::String(s) => Some(Spanned::new(s.to_string(), span)),
            other => {
                self.wrong_type(key, span, other, "a text in quotes");
                None
            }
        }
    }

    /// A text that must be there.
    pub fn need_text(&self, key: &'static str, example: &str) -> Option<Spanned<String>> {
        if !self.has(key) {
            self.missing(key, &format!("\"{example}\""));
        }
        self.text(key)
    }

    /// One text, or a list of texts.
    pub fn texts(&self, key: &'static str) -> Vec<Spanned<String>> {
        match self.get(key) {
            Some((DeValue::Array(items), _)) => items
                .iter()
                .filter_map(|item| {
                    let span = item.span().into();
                    if let DeValue::String(s) = item.get_ref() {
                        return Some(Spanned::new(s.to_string(), span));
                    }
                    self.wrong_type(key, span, item.get_ref(), "a list of texts");
                    None
                })
                .collect(),
            _ => self.text(key).into_iter().collect(),
        }
    }

    /// A text that `parse` turns into a value.
    pub fn parsed<T>(
        &self,
        key: &'static str,
        parse: impl FnOnce(&str) -> Result<T, Misread>,
    ) -> Option<Spanned<T>> {
        let (value, span) = self.get(key)?;
        let text = match value {
            DeValue::String(s) => s.to_string(),
            // A bare number: let the quantity's own reader say that its unit is missing.
            DeValue::Integer(n) => n.as_str().to_owned(),
            DeValue::Float(n) => n.as_str().to_owned(),
            other => {
                self.wrong_type(key, span, other, "a quantity in quotes, with its unit");
                return None;
            }
        };
        match parse(&text) {
            Ok(v) => Some(Spanned::new(v, span)),
            Err(e) => {
                self.error("bad-value", span, format!("{key}: {}", e.what), e.mend);
                None
            }
        }
    }

    /// A quantity within its bound.
    pub fn quantity<Q: Quantity>(&self, key: &'static str, bound: &Bound<Q>) -> Option<Spanned<Q>> {
        self.parsed(key, |text| {
            quantity::read::<Q>(text).and_then(|q| bound.check(q))
        })
    }

    /// A quantity that must be there.
    pub fn need_quantity<Q: Quantity>(
        &self,
        key: &'static str,
        bound: &Bound<Q>,
    ) -> Option<Spanned<Q>> {
        if !self.has(key) {
            self.missing(key, &format!("\"{}\"", Q::EXAMPLE));
        }
        self.quantity(key, bound)
    }

    /// On whose word a row of a table stands: its `basis` and its `source`, both needed.
    pub fn origin(&self) -> Option<(Basis, String)> {
        let basis = self.choice("basis", &Basis::WORDS)?.value;
        Some((basis, self.need_text("source", "…")?.value))
    }

    /// The same as one phrase: "ISO 6722 (read)".
    pub fn cite(&self) -> Option<String> {
        let (basis, source) = self.origin()?;
        Some(format!("{source} ({basis})"))
    }

    /// One of a closed list of words.
    pub fn choice<T: Copy>(&self, key: &'static str, words: &[(&str, T)]) -> Option<Spanned<T>> {
        self.known_word(key, &self.text(key)?, words)
    }

    /// One or several of a closed list of words.
    pub fn choices<T: Copy>(&self, key: &'static str, words: &[(&str, T)]) -> Vec<Spanned<T>> {
        let texts = self.texts(key);
        let known = texts.iter().map(|text| self.known_word(key, text, words));
        known.flatten().collect()
    }

    fn known_word<T: Copy>(
        &self,
        key: &str,
        text: &Spanned<String>,
        words: &[(&str, T)],
    ) -> Option<Spanned<T>> {
        if let Some(&(_, v)) = words
            .iter()
            .find(|(w, _)| w.eq_ignore_ascii_case(text.value.trim()))
        {
            return Some(Spanned::new(v, text.span));
        }
        let list = words
            .iter()
            .map(|(w, _)| format!("\"{w}\""))
            .collect::<Vec<_>>()
            .join(", ");
        let mend = match nearest(&text.value, words.iter().map(|(w, _)| *w)) {
            Some(near) => format!("did you mean \"{near}\"? It can be {list}"),
            None => format!("it can be {list}"),
        };
        self.error(
            "unknown-word",
            text.span,
            format!("{key}: “{}” is not known here", text.value),
            mend,
        );
        None
    }

    /// True or false.
    pub fn flag(&self, key: &'static str) -> Option<Spanned<bool>> {
        let (value, span) = self.get(key)?;
        if let DeValue::Boolean(b) = value {
            return Some(Spanned::new(*b, span));
        }
        self.wrong_type(key, span, value, "true or false");
        None
    }

    /// A whole number within a range.
    pub fn whole(
        &self,
        key: &'static str,
        range: std::ops::RangeInclusive<u32>,
    ) -> Option<Spanned<u32>> {
        let (value, span) = self.get(key)?;
        let number = match value {
            DeValue::Integer(n) => {
                u32::from_str_radix(&n.as_str().replace('_', ""), n.radix()).ok()
            }
            other => {
                self.wrong_type(key, span, other, "a whole number");
                return None;
            }
        };
        if let Some(n) = number.filter(|n| range.contains(n)) {
            return Some(Spanned::new(n, span));
        }
        self.error(
            "out-of-range",
            span,
            format!("{key}: this number can't be right"),
            format!(
                "it must be a whole number from {} to {}",
                range.start(),
                range.end()
            ),
        );
        None
    }

    /// A plain number within a range.
    pub fn number(
        &self,
        key: &'static str,
        range: std::ops::RangeInclusive<f64>,
    ) -> Option<Spanned<f64>> {
        let (value, span) = self.get(key)?;
        let text = match value {
            DeValue::Integer(n) => n.as_str(),
            DeValue::Float(n) => n.as_str(),
            other => {
                self.wrong_type(key, span, other, "a number");
                return None;
            }
        };
        let number = text
            .replace('_', "")
            .parse::<f64>()
            .ok()
            .filter(|n| range.contains(n));
        if number.is_none() {
            self.error(
                "out-of-range",
                span,
                format!("{key}: {text} can't be right"),
                format!(
                    "it must be a number from {} to {}",
                    range.start(),
                    range.end()
                ),
            );
        }
        number.map(|n| Spanned::new(n, span))
    }

    /// A list of plain numbers within a range.
    pub fn numbers(&self, key: &'static str, range: std::ops::RangeInclusive<f64>) -> Vec<f64> {
        let Some((value, span)) = self.get(key) else {
            return Vec::new();
        };
        let DeValue::Array(items) = value else {
            self.wrong_type(key, span, value, "a list of numbers");
            return Vec::new();
        };
        let read = |v: &DeValue| match v {
            DeValue::Integer(n) => n.as_str().replace('_', "").parse::<f64>().ok(),
            DeValue::Float(n) => n.as_str().replace('_', "").parse::<f64>().ok(),
            _ => None,
        };
        items
            .iter()
            .filter_map(|item| {
                let number = read(item.get_ref()).filter(|n| range.contains(n));
                if number.is_none() {
                    self.error(
                        "out-of-range",
                        item.span().into(),
                        format!("{key}: this is no number that can be right"),
                        format!("numbers here run from {} to {}", range.start(), range.end()),
                    );
                }
                number
            })
            .collect()
    }

    fn child(&self, what: &'static str, table: &'t DeTable<'t>, span: Span) -> Keys<'t> {
        Keys::new(what, table, span, self.errors)
    }

    /// A table under a key, read by `reader`; unknown keys in it are reported.
    pub fn table<T>(
        &self,
        key: &'static str,
        what: &'static str,
        reader: impl FnOnce(&Keys<'t>) -> T,
    ) -> Option<T> {
        let (value, span) = self.get(key)?;
        let DeValue::Table(table) = value else {
            self.wrong_type(
                key,
                span,
                value,
                &format!("a table: {key} = {{ … }} or [{key}]"),
            );
            return None;
        };
        let keys = self.child(what, table, span);
        let made = reader(&keys);
        keys.finish();
        Some(made)
    }

    /// A table that must be there.
    pub fn need_table<T>(
        &self,
        key: &'static str,
        what: &'static str,
        example: &str,
        reader: impl FnOnce(&Keys<'t>) -> T,
    ) -> Option<T> {
        if !self.has(key) {
            self.missing(key, example);
        }
        self.table(key, what, reader)
    }

    /// A list of tables, or one table alone, each read by `reader`.
    pub fn tables<T>(
        &self,
        key: &'static str,
        what: &'static str,
        mut reader: impl FnMut(&Keys<'t>) -> Option<T>,
    ) -> Vec<T> {
        let Some((value, span)) = self.get(key) else {
            return Vec::new();
        };
        let mut one = |value: &'t DeValue<'t>, span: Span| {
            let DeValue::Table(table) = value else {
                self.wrong_type(key, span, value, &format!("a table of this {what}'s keys"));
                return None;
            };
            let keys = self.child(what, table, span);
            let made = reader(&keys);
            keys.finish();
            made
        };
        match value {
            DeValue::Array(items) => items
                .iter()
                .filter_map(|item| one(item.get_ref(), item.span().into()))
                .collect(),
            other => one(other, span).into_iter().collect(),
        }
    }

    /// A table whose keys are names of the user's own (`[place]`), each holding a table, in the
    /// order in which they stand in the text.
    pub fn named<T>(
        &self,
        key: &'static str,
        what: &'static str,
        mut reader: impl FnMut(Spanned<String>, &Keys<'t>) -> Option<T>,
    ) -> Vec<T> {
        let Some((value, span)) = self.get(key) else {
            return Vec::new();
        };
        let DeValue::Table(table) = value else {
            self.wrong_type(key, span, value, &format!("a table: [{key}]"));
            return Vec::new();
        };
        let mut entries: Vec<_> = table.iter().collect();
        entries.sort_by_key(|(name, _)| name.span().start);
        entries
            .into_iter()
            .filter_map(|(name, value)| {
                let named = Spanned::new(name.get_ref().to_string(), name.span().into());
                let DeValue::Table(inner) = value.get_ref() else {
                    self.wrong_type(
                        &named.value,
                        value.span().into(),
                        value.get_ref(),
                        "a table: { … }",
                    );
                    return None;
                };
                let keys = self.child(what, inner, value.span().into());
                let made = reader(named, &keys);
                keys.finish();
                made
            })
            .collect()
    }

    /// Reports every key that was written but never asked for.
    pub(crate) fn finish(&self) {
        let used = self.used.borrow();
        for (key, _) in self.table {
            let word: &str = key.get_ref();
            if used.contains(word) {
                continue;
            }
            let known = used.iter().copied().collect::<Vec<_>>().join(", ");
            let mend = match nearest(word, used.iter().copied()) {
                Some(near) => format!("did you mean “{near}”? A {} knows: {known}", self.what),
                None => format!("a {} knows: {known}", self.what),
            };
            self.error(
                "unknown-key",
                key.span().into(),
                format!("a {} has no “{word}”", self.what),
                mend,
            );
        }
    }
}

fn kind_word(value: &DeValue) -> &'static str {
    match value {
        DeValue::String(_) => "a text",
        DeValue::Integer(_) | DeValue::Float(_) => "a bare number",
        DeValue::Boolean(_) => "true or false",
        DeValue::Datetime(_) => "a date",
        DeValue::Array(_) => "a list",
        DeValue::Table(_) => "a table",
    }
}
