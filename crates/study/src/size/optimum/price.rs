//! What a choice costs: in money, in mass, in kinds of wire, as the plan aims.

use super::program::Kind;
use crate::design::{Choice, Design, FuseChoice};
use finding::{Basis, Keys, read_toml};
use loom::{Assumption, Loom, WireId};
use plan::Aim;
use quantity::{Quantity, figures, in_mm2};
use std::collections::{BTreeMap, BTreeSet};
use std::f64::consts::PI;
use stock::{Conductor, Stock};

/// One figure and on whose word it stands.
#[derive(Clone, Debug)]
struct Price {
    name: String,
    value: f64,
    unit: String,
    source: String,
    basis: Basis,
}

fn read(text: &str) -> (Vec<Price>, Vec<finding::Finding>) {
    read_toml(text, "table of prices", |k: &Keys| {
        k.tables("price", "price", |k| {
            let (basis, source) = k.origin()?;
            Some(Price {
                name: k.need_text("name", "…")?.value,
                value: k.number("value", 0.0..=1e5)?.value,
                unit: k.need_text("unit", "…")?.value,
                source,
                basis,
            })
        })
    })
}

/// A whole choice in every way that it can be weighed.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Weighed {
    /// Wire, terminals, fuses, and something for each kind to buy: the user's money where all prices are known, else by the prices taken for granted.
    pub money: f64,
    /// Copper and insulation, kg.
    pub kilograms: f64,
    /// Kinds of wire to buy: by conductor and colour.
    pub kinds: usize,
}

/// What choices are weighed by.
pub(super) struct Prices<'a> {
    loom: &'a Loom,
    stock: &'a Stock,
    aim: Aim,
    rows: Vec<Price>,
    /// Whether the user's stock prices every wire that may be chosen.
    pub known: bool,
    /// Insulations of the wires that may be chosen.
    insulations: Vec<&'a str>,
}

impl<'a> Prices<'a> {
    pub fn new(d: &Design<'a>) -> Self {
        let priced = |c: &usize| d.stock.conductors[*c].price_per_m.is_some();
        let each = d.candidates.iter().flatten();
        let insulations: BTreeSet<&str> = each
            .map(|c| d.stock.conductors[*c].insulation.as_str())
            .collect();
        Self {
            loom: d.loom,
            stock: d.stock,
            aim: d.habits.aim,
            rows: read(include_str!("../../../tables/price.toml")).0,
            known: d.candidates.iter().flatten().all(priced),
            insulations: insulations.into_iter().collect(),
        }
    }

    fn row(&self, name: &str) -> &Price {
        let found = self.rows.iter().find(|r| r.name == name);
        found.unwrap_or_else(|| panic!("the table of prices has no “{name}”"))
    }

    fn value(&self, name: &str) -> f64 {
        self.row(name).value
    }

    /// The figures of the table that decide between choices.
    pub fn assumed(&self) -> Vec<Assumption> {
        let decide: &[&str] = match (self.aim, self.known) {
            (Aim::Mass, _) => &["insulation"],
            (Aim::Cost, true) => &["terminals", "fuse", "kind"],
            (Aim::Cost, false) => &["wire", "copper", "terminals", "fuse", "kind"],
            (Aim::Kinds, true) => &["terminals", "fuse"],
            (Aim::Kinds, false) => &["wire", "copper", "terminals", "fuse"],
        };
        let dearer = self.insulations.iter().filter(|_| !self.known);
        let dearer = dearer.filter_map(|name| self.insulation(name));
        let each = decide.iter().map(|name| self.row(name)).chain(dearer);
        each.map(|row| Assumption {
            what: match row.name.as_str() {
                "insulation" => "mass of insulation".to_owned(),
                name => format!("price of {name}"),
            },
            value: format!("{} {}", figures(row.value, 3), row.unit),
            source: row.source.clone(),
            basis: row.basis,
            set: match row.name.as_str() {
                "wire" | "copper" => "[[price]] of every wire in your stock file".to_owned(),
                _ => "can’t be set".to_owned(),
            },
        })
        .collect()
    }

    /// How much dearer its insulation makes a wire, where the table says so.
    fn insulation(&self, name: &str) -> Option<&Price> {
        let name = format!("{name} insulation");
        self.rows.iter().find(|r| r.name == name)
    }

    /// A metre of wire.
    fn metre(&self, c: &Conductor) -> f64 {
        match c.price_per_m.filter(|_| self.known) {
            Some(price) => price,
            None => {
                let plain = self.value("wire") + self.value("copper") * in_mm2(c.area);
                plain * self.insulation(&c.insulation).map_or(1.0, |row| row.value)
            }
        }
    }

    fn money(&self, wire: WireId, c: &Conductor) -> f64 {
        let metres = self.loom.wire(wire).cut.si();
        metres * self.metre(c) + self.value("terminals") * in_mm2(c.area)
    }

    /// Grams of a wire.
    fn grams(&self, wire: WireId, c: &Conductor) -> f64 {
        let round = |d: f64| PI / 4.0 * d * d;
        let plastic = round(c.outside_d.si()) - round(c.conductor_d.si());
        let per_m = c.area.si() * self.value("bare copper") + plastic * self.value("insulation");
        1e3 * per_m * self.loom.wire(wire).cut.si()
    }

    /// What a wire of this conductor adds.
    pub fn wire(&self, wire: WireId, conductor: usize) -> f64 {
        let c = &self.stock.conductors[conductor];
        match self.aim {
            Aim::Cost | Aim::Kinds => self.money(wire, c),
            // Money parts what weighs the same.
            Aim::Mass => self.grams(wire, c) + 1e-3 * self.money(wire, c),
        }
    }

    fn fuse_money(&self, choice: FuseChoice) -> f64 {
        let rating = &self.stock.fuses[choice.kind].ratings[choice.rating];
        rating.price.unwrap_or(0.0) + self.value("fuse") * rating.amps.si()
    }

    /// What a fuse adds.
    pub fn fuse(&self, choice: FuseChoice) -> f64 {
        let money = self.fuse_money(choice);
        match self.aim {
            Aim::Cost | Aim::Kinds => money,
            Aim::Mass => 1e-3 * money,
        }
    }

    /// A whole choice in every way that it can be weighed.
    pub fn weigh(&self, choice: &Choice) -> Weighed {
        let wires = || {
            let each = choice.wires.iter().enumerate();
            each.map(|(w, c)| (WireId(w as u32), &self.stock.conductors[*c]))
        };
        let fuses = choice.fuses.iter().flatten().map(|f| self.fuse_money(*f));
        let each = choice.wires.iter().enumerate();
        let kinds: BTreeSet<(usize, String)> = each.map(|(w, c)| (*c, self.colour(w))).collect();
        Weighed {
            money: wires()
                .map(|(w, c)| self.money(w, c))
                .chain(fuses)
                .chain([self.kind() * kinds.len() as f64])
                .sum(),
            kilograms: wires().map(|(w, c)| 1e-3 * self.grams(w, c)).sum(),
            kinds: kinds.len(),
        }
    }

    /// What a kind of wire counts beside its price.
    pub fn kind(&self) -> f64 {
        self.value("kind")
    }

    fn colour(&self, wire: usize) -> String {
        self.loom.wires[wire].colour.to_string()
    }

    /// What each kind of wire adds that any of these wires may be.
    pub fn kinds(&self, wires: &[Vec<usize>]) -> Vec<Kind> {
        let each = match self.aim {
            Aim::Cost => self.kind(),
            Aim::Mass => return Vec::new(),
            // One kind less is worth whatever it costs otherwise.
            Aim::Kinds => 1.0 + self.dearest(wires),
        };
        let mut by_kind: BTreeMap<(usize, String), Vec<(usize, usize)>> = BTreeMap::new();
        for (w, list) in wires.iter().enumerate() {
            for (k, c) in list.iter().enumerate() {
                let kind = (*c, self.colour(w));
                by_kind.entry(kind).or_default().push((w, k));
            }
        }
        let kinds = by_kind.into_values();
        kinds
            .map(|options| Kind {
                cost: each,
                options,
            })
            .collect()
    }

    /// No choice costs more in money than this.
    fn dearest(&self, wires: &[Vec<usize>]) -> f64 {
        let most = |(w, list): (usize, &Vec<usize>)| {
            let each = list.iter().map(|c| self.wire(WireId(w as u32), *c));
            each.fold(0.0, f64::max)
        };
        wires.iter().enumerate().map(most).sum()
    }
}

#[test]
fn every_row_reads() {
    let text = include_str!("../../../tables/price.toml");
    let (rows, errors) = read(text);
    assert_eq!(errors, []);
    assert_eq!(rows.len(), text.matches("[[price]]").count());
}
