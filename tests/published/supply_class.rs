//! Supply-voltage classes of ISO 16750-2 (46): the table, and a load that carries a letter.

use super::case::Case;
use super::ledger::Run;
use super::reference::{Look, reference};
use super::tolerance::Tolerance::Relative;
use super::tolerance::near;
use quantity::Quantity;
use stock::Stock;

pub(crate) const RUNS: &[Run] = &[Run {
    ids: &["U01", "U02"],
    check: looked_up,
}];

fn looked_up(case: &mut Case) {
    let stock = Stock::embedded();
    let (code, volts) = (case.word("code"), case.num("system_V") as u32);
    let class = stock.supply_class(code, volts);
    let class = class.unwrap_or_else(|| panic!("stock has no class {code}"));
    case.near("U_min", class.lowest.si());
    case.near("U_max", class.highest.si());
}

#[test]
fn every_code_of_the_tables() {
    let table = reference!("protection/46_iso16750_supply.toml");
    let stock = Stock::embedded();
    let rows = table.rows("code");
    assert_eq!(rows.len(), stock.supply_classes.len());
    for row in rows {
        let class = stock.supply_class(row.word("id"), row.num("system") as u32);
        let class = class.unwrap_or_else(|| panic!("no class {}", row.word("id")));
        near(
            "lowest",
            class.lowest.si(),
            row.num("U_min"),
            Relative(1e-9),
        );
        near(
            "highest",
            class.highest.si(),
            row.num("U_max"),
            Relative(1e-9),
        );
    }
}
