//! What to buy for a loom, with amounts. Takes a studied loom and what fits it; gives rows by group, in an order in which a
//! person shops: wire, fuses, boxes, relays and switches, connectors, terminals, sleeves and grommets, consumables.
//!
//! | file | rows |
//! |---|---|
//! | `wire` | by kind and colour, in metres with an allowance |
//! | `parts` | fuses, holders, boxes, relays, switches, cut-outs |
//! | `crimped` | connectors with contacts, seals and blanking plugs; terminals and barrels |
//! | `covers` | sleeves and shrink by the metre, grommets, boots |
//! | `consumables` | clips, ties, labels, tape |
//! | `spools` | from which rolls wire is cut, and from which sticks sleeve |

mod consumables;
mod covers;
mod crimped;
mod parts;
mod spools;
mod wire;

use crate::answers::Answers;
use crate::design::{Design, Habits};
use crate::fit::{Fit, Stud, Table, fit, studs};
use crate::laid::{Laid, Passing, labels_of, laid, passings};
use crate::laying::Laying;
pub(crate) use covers::wants_boot;
use loom::{Loom, WireId};
pub use spools::{Piece, Spools};
use stock::Stock;

/// What to buy, and what fits.
#[derive(Clone, Debug)]
pub struct Lists {
    /// Rows, group by group.
    pub buy: Vec<Buy>,
    /// What every wire's end gets.
    pub fit: Fit,
    /// What lies on each stud.
    pub studs: Vec<Stud>,
    /// How each bundle is laid.
    pub laid: Vec<Laid>,
    /// What goes through each panel, and how.
    pub passings: Vec<Passing>,
    /// By wire: how many labels it gets.
    pub labels: Vec<u32>,
    /// The rolls that the wires are cut from, then the sticks that sleeve is cut from.
    pub spools: Vec<Spools>,
    /// Wires longer than any roll.
    pub too_long: Vec<WireId>,
    /// What amounts allow for, and what rolls there are, each with on whose word.
    pub allowed: Vec<String>,
}

/// One row.
#[derive(Clone, Debug, PartialEq)]
pub struct Buy {
    /// Its group: "wire", "fuse", "terminal", …
    pub group: &'static str,
    /// What it is, as one asks for it in a shop.
    pub what: String,
    /// How much of it.
    pub amount: Amount,
    /// What it is for: names of wires and parts.
    pub used_by: Vec<String>,
    /// What that costs, where the user's own stock says prices; in its currency.
    pub price: Option<f64>,
}

/// How much.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Amount {
    /// Metres.
    Metres(f64),
    /// Pieces.
    Pieces(u32),
}

/// All lists of a loom.
pub fn lists(loom: &Loom, stock: &Stock, habits: &Habits, answers: &Answers) -> Lists {
    let d = Design::answered(loom, stock, habits, answers);
    let table = Table::default();
    let fit = fit(&d, answers);
    let mut buy = wire::rows(&d, &table);
    buy.extend(parts::rows(&d, answers));
    buy.extend(crimped::rows(&d, &fit, &table));
    let laying = Laying::default();
    let laid = laid(&d, &answers.bundles);
    let studs = studs(&d, answers, &fit);
    let sleeving = covers::sleeving(&d, &laid, &fit);
    buy.extend(covers::rows(&d, &table, (&sleeving, &laid), (&fit, &studs)));
    let labels = labels_of(&d, &laying);
    buy.extend(consumables::rows(
        &d,
        (&table, &laying),
        (&laid, &studs, &labels),
    ));
    let allowed = table.allowances.iter();
    let mut allowed: Vec<String> = allowed
        .map(|a| format!("{}: {} % more, {}", a.name, 100.0 * a.value, a.cite))
        .collect();
    let mut rolls: Vec<String> = table.rolls.iter().map(|roll| roll.cite.clone()).collect();
    rolls.dedup();
    allowed.extend(rolls);
    let (mut spools, too_long) = spools::wires(&d, &table);
    let sleeves: Vec<(usize, Vec<Piece>)> = sleeving.pieces.into_iter().collect();
    spools.extend(spools::sleeves(&d, &laying, &sleeves));
    let sold = sleeves
        .iter()
        .filter_map(|(s, _)| laying.stick(&d.stock.sleeves[*s].kind));
    allowed.extend(sold.map(|stick| stick.cite.clone()));
    allowed.extend(laid.iter().flat_map(|l| l.cites.clone()));
    allowed.extend(laying.told());
    let mut met = std::collections::BTreeSet::new();
    allowed.retain(|line| met.insert(line.clone()));
    Lists {
        buy,
        studs,
        passings: passings(&d, &fit, &laid),
        fit,
        laid,
        labels,
        spools,
        too_long,
        allowed,
    }
}

/// Rows put together: the same thing for several names is one row, in the order in which it was first met.
#[derive(Default)]
struct Rows(Vec<(String, f64, Vec<String>)>);

impl Rows {
    fn add(&mut self, what: String, amount: f64, name: &str) {
        let row = match self.0.iter_mut().find(|r| r.0 == what) {
            Some(row) => row,
            None => {
                self.0.push((what, 0.0, Vec::new()));
                let last = self.0.len() - 1;
                &mut self.0[last]
            }
        };
        row.1 += amount;
        if !name.is_empty() && !row.2.iter().any(|n| n == name) {
            row.2.push(name.to_owned());
        }
    }

    /// As rows of a group; `amount` makes what is bought of what is needed.
    fn of(self, group: &'static str, amount: impl Fn(f64) -> Amount) -> Vec<Buy> {
        let row = |(what, needed, used_by): (String, f64, Vec<String>)| Buy {
            group,
            what,
            amount: amount(needed),
            used_by,
            price: None,
        };
        self.0.into_iter().map(row).collect()
    }
}

/// So many.
fn pieces(needed: f64) -> Amount {
    Amount::Pieces(needed.ceil() as u32)
}
