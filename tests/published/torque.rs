//! Torque of nuts and screws: the table of stock against the rows as they were handed over.

use super::reference::{Look, reference};
use stock::Stock;

/// What stock calls a thing, by the reference's words before its thread.
const NAMES: [(&str, &str); 4] = [
    ("battery stud", "battery stud"),
    ("terminal screw", "terminal screw"),
    ("body earth point", "body earth"),
    ("fuse holder stud", "fuse holder"),
];

#[test]
fn every_torque_of_stock_is_the_reference_row_of_its_thread() {
    let table = reference!("workmanship/torque_studs.toml");
    let stock = Stock::embedded();
    for ours in &stock.torques {
        let name = NAMES.iter().find(|(_, name)| *name == ours.of);
        let (theirs, _) = name.unwrap_or_else(|| panic!("{ours:?}"));
        let what = format!("{theirs} {}", ours.stud);
        // “… (other maker)” and “… (other manual)” differ: the first of each is taken, and the lower where they conflict.
        let same = |row: &&toml::Value| {
            let word = row.word("what");
            word == what || word == format!("{what} steel 8.8")
        };
        let found = table.rows("torque").iter().find(same);
        let row = found.unwrap_or_else(|| panic!("no {what}"));
        assert_eq!(
            (ours.least, ours.most),
            (row.num("min_nm"), row.num("max_nm")),
            "{what}"
        );
        let read = row.word("basis") == "READ";
        assert_eq!(ours.origin.basis == finding::Basis::Read, read, "{what}");
    }
    assert!(stock.torques.len() >= 13);
}
