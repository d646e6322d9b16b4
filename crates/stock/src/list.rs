//! Any table as lines of text, for the command line and the page.

mod cells;
mod hardware;

use crate::{Origin, Stock};
use quantity::{ElectricCurrent, Length, Quantity, figures};

/// The tables that [`list`] knows.
pub const WHATS: [&str; 15] = [
    "wire",
    "fuses",
    "relays",
    "switches",
    "joints",
    "terminals",
    "tabs",
    "pull",
    "torque",
    "connectors",
    "sleeves",
    "grommets",
    "insulation",
    "currents",
    "classes",
];

/// A table as text. The last two cells of every row are its basis and its source.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Listing {
    /// What it lists.
    pub title: String,
    /// Heads of the columns.
    pub columns: Vec<String>,
    /// Rows, each as long as `columns`.
    pub rows: Vec<Vec<String>>,
}

/// The table `what` (one of [`WHATS`]), or `None` where there is none.
pub fn list(stock: &Stock, what: &str) -> Option<Listing> {
    Some(match what {
        "wire" => cells::wire(stock),
        "fuses" => cells::fuses(stock),
        "relays" => cells::relays(stock),
        "switches" => cells::switches(stock),
        "joints" => cells::joints(stock),
        "terminals" => hardware::terminals(stock),
        "tabs" => hardware::tabs(stock),
        "pull" => hardware::pulls(stock),
        "torque" => hardware::torques(stock),
        "connectors" => hardware::connectors(stock),
        "sleeves" => hardware::sleeves(stock),
        "grommets" => hardware::grommets(stock),
        "insulation" => cells::insulation(stock),
        "currents" => currents(stock),
        "classes" => hardware::supply_classes(stock),
        _ => return None,
    })
}

/// The cells of one row and where it comes from.
type Line<'a> = (Vec<String>, &'a Origin);

/// Puts lines together, with basis and source as their last cells.
fn listing<'a>(title: &str, heads: &[&str], lines: impl Iterator<Item = Line<'a>>) -> Listing {
    let rows = lines.map(|(mut cells, origin)| {
        cells.push(origin.basis.to_string());
        cells.push(origin.source.clone());
        cells
    });
    Listing {
        title: title.to_owned(),
        columns: heads
            .iter()
            .chain(&["basis", "source"])
            .map(|&h| h.to_owned())
            .collect(),
        rows: rows.collect(),
    }
}

/// Every rule set's table in one: a column for each insulation temperature that any of them has.
fn currents(stock: &Stock) -> Listing {
    let mut columns: Vec<f64> = stock
        .currents
        .iter()
        .flat_map(|t| t.columns_c.clone())
        .collect();
    columns.sort_by(f64::total_cmp);
    columns.dedup();
    let mut heads = vec!["rule set".to_owned(), "wire".to_owned()];
    heads.extend(columns.iter().map(|c| format!("{} °C, A", figures(*c, 4))));
    let mut lines = Vec::new();
    for table in &stock.currents {
        for ((size, amps), origin) in table.rows.iter().zip(&table.row_origins) {
            let mut cells = vec![table.name.clone(), size.to_string()];
            cells.extend(columns.iter().map(|c| {
                let at = table.columns_c.iter().position(|own| own == c);
                maybe(at.and_then(|i| amps[i]).map(|a| figures(a, 4)))
            }));
            lines.push((cells, origin));
        }
    }
    let heads: Vec<&str> = heads.iter().map(String::as_str).collect();
    listing(
        "Allowed currents by rule set, outside engine spaces",
        &heads,
        lines.into_iter(),
    )
}

/// A cell that may be empty.
fn maybe(text: Option<String>) -> String {
    text.unwrap_or_else(|| "–".to_owned())
}

fn show<Q: Quantity>(value: Option<Q>) -> String {
    maybe(value.map(Quantity::show))
}

fn yes(flag: bool) -> String {
    if flag { "yes" } else { "no" }.to_owned()
}

/// A resistance in Ω as mΩ.
fn mohm(ohms: f64) -> String {
    figures(ohms * 1e3, 4)
}

/// A current without its unit, for columns that carry it.
fn bare(amps: ElectricCurrent) -> String {
    figures(amps.si(), 4)
}

/// A diameter in mm without its unit.
fn mm(length: Length) -> String {
    figures(length.si() * 1e3, 3)
}
