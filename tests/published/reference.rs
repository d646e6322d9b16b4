//! The reference tables: TOML texts built in, and short ways into them. A key that is not there is a
//! mistake in a test, so it panics with its name.

use toml::{Table, Value};

/// Reads a table of `reference/` that is built in: `reference!("conductors/01_awg_geometry.toml")`.
macro_rules! reference {
    ($file:literal) => {
        $crate::published::reference::parse(
            $file,
            include_str!(concat!(
                env!("CARGO_MANIFEST_DIR"),
                "/published/reference/",
                $file
            )),
        )
    };
}
pub(crate) use reference;

pub(crate) fn parse(file: &str, text: &str) -> Value {
    let table: Table = text.parse().unwrap_or_else(|e| panic!("{file}: {e}"));
    Value::Table(table)
}

/// What a value of a table is asked for.
pub(crate) trait Look {
    /// What stands under a key.
    fn at(&self, key: &str) -> &Value;
    /// What stands under a key, if anything does.
    fn get_at(&self, key: &str) -> Option<&Value>;
    /// A number under a key.
    fn num(&self, key: &str) -> f64;
    /// A list of numbers under a key.
    fn nums(&self, key: &str) -> Vec<f64>;
    /// A text under a key.
    fn word(&self, key: &str) -> &str;
    /// A list of tables under a key.
    fn rows(&self, key: &str) -> &[Value];
    /// The value itself as a number.
    fn number(&self) -> Option<f64>;
}

impl Look for Value {
    fn at(&self, key: &str) -> &Value {
        self.get(key)
            .unwrap_or_else(|| panic!("no “{key}” in {self}"))
    }

    fn get_at(&self, key: &str) -> Option<&Value> {
        self.get(key)
    }

    fn num(&self, key: &str) -> f64 {
        let found = self.at(key).number();
        found.unwrap_or_else(|| panic!("“{key}” is no number in {self}"))
    }

    fn nums(&self, key: &str) -> Vec<f64> {
        self.rows(key).iter().filter_map(Look::number).collect()
    }

    fn word(&self, key: &str) -> &str {
        let found = self.at(key).as_str();
        found.unwrap_or_else(|| panic!("“{key}” is no text in {self}"))
    }

    fn rows(&self, key: &str) -> &[Value] {
        let found = self.at(key).as_array();
        found.unwrap_or_else(|| panic!("“{key}” is no list in {self}"))
    }

    fn number(&self) -> Option<f64> {
        match self {
            Value::Integer(n) => Some(*n as f64),
            Value::Float(n) => Some(*n),
            _ => None,
        }
    }
}
