//! Switches by kind of load (24, S01, S02): how much larger the rating must be than the current.

use super::case::Case;
use super::ledger::Run;
use super::reference::{Look, reference};
use super::tolerance::Tolerance::Relative;
use super::tolerance::near;
use quantity::Quantity;
use stock::{ContactLoad, Stock};

pub(crate) const RUNS: &[Run] = &[Run {
    ids: &["S01", "S02"],
    check: rating,
}];

/// Aircraft's 28 V is a vehicle's 24 V.
fn system(volts: f64) -> u32 {
    if volts > 20.0 { 24 } else { 12 }
}

fn load(word: &str) -> ContactLoad {
    let first = word.split(' ').next().unwrap_or(word);
    let found = ContactLoad::WORDS.iter().find(|(w, _)| *w == first);
    found.unwrap_or_else(|| panic!("no load “{first}”")).1
}

fn factor(stock: &Stock, volts: f64, word: &str) -> f64 {
    let found = stock.derating(system(volts), load(word));
    found
        .unwrap_or_else(|| panic!("no factor for {word} at {volts} V"))
        .factor
}

fn rating(c: &mut Case) {
    let stock = Stock::embedded();
    let ours = factor(&stock, c.num("U_sys"), c.word("load")) * c.num("I_A");
    c.near("switch_A", ours);
}

#[test]
fn every_factor_of_the_circular() {
    let table = reference!("protection/24_switch_derating.toml");
    let stock = Stock::embedded();
    for row in table.rows("factor") {
        let ours = factor(&stock, row.num("system_V"), row.word("load"));
        near(row.word("load"), ours, row.num("factor"), Relative(1e-9));
    }
    assert_eq!(table.rows("factor").len(), stock.deratings.len());
}

/// A class of switch is worth about half at 24 V.
#[test]
fn half_as_much_at_24_volts() {
    let stock = Stock::embedded();
    for s in stock.switches.iter().filter(|s| s.volts == 12) {
        let twin = |o: &&stock::SwitchKind| {
            (&o.name, o.positions, o.illuminated, o.volts)
                == (&s.name, s.positions, s.illuminated, 24)
        };
        let other = stock
            .switches
            .iter()
            .find(twin)
            .unwrap_or_else(|| panic!("no {} for 24 V", s.name));
        near(
            &s.name,
            other.rating.si() / s.rating.si(),
            0.5,
            Relative(0.01),
        );
    }
}
