//! One case of a list: its inputs, what is expected, its tolerance and its source. Whoever runs it
//! says each expected value; one that is neither said nor left with a reason fails the case.

use super::reference::Look;
use super::tolerance::Tolerance;
use std::collections::BTreeSet;
use toml::Value;

/// A case under way.
pub(crate) struct Case {
    /// Its id in the list.
    pub id: String,
    /// Tolerance that the list gives.
    pub tolerance: Tolerance,
    /// Where the list says that it comes from.
    source: String,
    inputs: Value,
    expect: Value,
    told: BTreeSet<String>,
    compared: usize,
    wrong: Vec<String>,
}

/// What a list's rows call their parts.
pub(crate) struct Form {
    pub inputs: &'static str,
    pub expect: &'static str,
    pub tolerance: fn(&Value) -> Option<Tolerance>,
    pub source: &'static [&'static str],
}

impl Case {
    /// From a row of a list.
    pub(crate) fn new(row: &Value, form: &Form) -> Self {
        let id = row.word("id").to_owned();
        let tolerance =
            (form.tolerance)(row).unwrap_or_else(|| panic!("{id}: its tolerance can't be read"));
        let source: Vec<&str> = form.source.iter().map(|k| row.word(k)).collect();
        Self {
            id,
            tolerance,
            source: source.join(", "),
            inputs: row.at(form.inputs).clone(),
            expect: row.at(form.expect).clone(),
            told: BTreeSet::new(),
            compared: 0,
            wrong: Vec::new(),
        }
    }

    /// An input that is a number.
    pub(crate) fn num(&self, key: &str) -> f64 {
        self.inputs.num(key)
    }

    /// An input that is a list of numbers.
    pub(crate) fn nums(&self, key: &str) -> Vec<f64> {
        self.inputs.nums(key)
    }

    /// An input that is a text.
    pub(crate) fn word(&self, key: &str) -> &str {
        self.inputs.word(key)
    }

    /// Whether an input is there.
    pub(crate) fn has(&self, key: &str) -> bool {
        self.inputs.get_at(key).is_some()
    }

    /// An expected number, for a checker that needs it as a bound.
    pub(crate) fn expected(&mut self, key: &str) -> f64 {
        self.told.insert(key.to_owned());
        self.expect.num(key)
    }

    /// Ours, against an expected number, within the list's tolerance.
    pub(crate) fn near(&mut self, key: &str, ours: f64) {
        self.within(key, ours, self.tolerance);
    }

    /// The same within another tolerance, with the reason for it.
    pub(crate) fn wider(&mut self, key: &str, ours: f64, tolerance: Tolerance, why: &'static str) {
        assert!(!why.is_empty());
        self.within(key, ours, tolerance);
    }

    fn within(&mut self, key: &str, ours: f64, tolerance: Tolerance) {
        let published = self.expected(key);
        self.compare(key, ours, published, tolerance);
    }

    /// Ours, one by one, against an expected list.
    pub(crate) fn each(&mut self, key: &str, ours: &[f64]) {
        self.each_wider(key, ours, self.tolerance, "as the list says");
    }

    /// The same within another tolerance, with the reason for it.
    pub(crate) fn each_wider(
        &mut self,
        key: &str,
        ours: &[f64],
        tolerance: Tolerance,
        why: &'static str,
    ) {
        assert!(!why.is_empty());
        self.told.insert(key.to_owned());
        let published = self.expect.nums(key);
        self.holds(
            &format!("{key}: as many values"),
            published.len() == ours.len(),
        );
        for (ours, published) in ours.iter().zip(published) {
            self.compare(key, *ours, published, tolerance);
        }
    }

    /// One value of an expected list, where the others are out of reach; the reason says why.
    pub(crate) fn one_of(
        &mut self,
        key: &str,
        at: usize,
        ours: f64,
        tolerance: Tolerance,
        why: &'static str,
    ) {
        assert!(!why.is_empty());
        self.told.insert(key.to_owned());
        let published = self.expect.nums(key)[at];
        self.compare(key, ours, published, tolerance);
    }

    fn compare(&mut self, key: &str, ours: f64, published: f64, tolerance: Tolerance) {
        self.compared += 1;
        println!(
            "{:<10} {key:<24} ours {ours:<12.6} published {published:<12} within {tolerance}",
            self.id
        );
        if !tolerance.agree(ours, published) {
            let line = format!("{key}: ours {ours}, published {published}, within {tolerance}");
            self.wrong.push(line);
        }
    }

    /// An expected text or true/false.
    pub(crate) fn same(&mut self, key: &str, ours: impl Into<Value>) {
        self.told.insert(key.to_owned());
        let (ours, published) = (ours.into(), self.expect.at(key).clone());
        self.holds(
            &format!("{key}: ours {ours}, published {published}"),
            ours == published,
        );
    }

    /// Something that must be so.
    pub(crate) fn holds(&mut self, what: &str, so: bool) {
        self.compared += 1;
        if !so {
            self.wrong.push(what.to_owned());
        }
    }

    /// An expected value that we have no answer to, with the reason.
    pub(crate) fn leave(&mut self, key: &str, why: &'static str) {
        assert!(!why.is_empty());
        let known = self.expect.get_at(key).is_some();
        self.holds(&format!("{key} is left out, but is not expected"), known);
        self.told.insert(key.to_owned());
    }

    /// How many comparisons were made, and what is wrong.
    pub(crate) fn finish(mut self) -> (usize, Vec<String>) {
        let keys = self
            .expect
            .as_table()
            .into_iter()
            .flat_map(|t| t.keys().cloned());
        let untold: Vec<String> = keys.filter(|k| !self.told.contains(k)).collect();
        for key in untold {
            self.wrong
                .push(format!("{key} is expected, and nothing was said of it"));
        }
        if self.compared == 0 {
            self.wrong.push("nothing was compared".to_owned());
        }
        let (id, source) = (self.id, self.source);
        let wrong = self
            .wrong
            .iter()
            .map(|w| format!("{id} ({source}): {w}"))
            .collect();
        (self.compared, wrong)
    }
}
