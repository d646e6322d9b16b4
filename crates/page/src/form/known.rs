//! The names that can be chosen: those that the plan gives, and those of the stock.

use job::Stock;
use job::plan::Written;
use job::plan::ask::Of;
use maud::{Markup, html};

/// Names by what they are of.
pub(crate) struct Known {
    places: Vec<String>,
    feeds: Vec<String>,
    boxes: Vec<String>,
    earths: Vec<String>,
    signals: Vec<String>,
    circuits: Vec<String>,
    stock: Vec<(&'static str, Vec<String>)>,
}

fn unique(names: impl Iterator<Item = String>) -> Vec<String> {
    let mut out: Vec<String> = Vec::new();
    for name in names {
        if !out.contains(&name) {
            out.push(name);
        }
    }
    out
}

impl Known {
    pub fn of(written: &Written, stock: &Stock) -> Self {
        let top = written.top();
        let listed = |key: &str| -> Vec<String> {
            let all = top.entries("", key);
            all.iter()
                .filter_map(|e| e.name.map(str::to_owned))
                .collect()
        };
        let battery = || std::iter::once("battery".to_owned());
        let named = top.named("place");
        let places: Vec<String> = named
            .iter()
            .filter_map(|e| e.name.map(str::to_owned))
            .collect();
        let earths = listed("earth")
            .into_iter()
            .chain(places.iter().cloned())
            .chain(battery());
        let insulation = unique(stock.conductors.iter().map(|c| c.insulation.clone()));
        Self {
            feeds: unique(battery().chain(listed("feed"))),
            earths: unique(earths),
            boxes: listed("box"),
            signals: listed("signal"),
            circuits: listed("circuit"),
            places,
            stock: vec![
                (
                    "insulation",
                    unique(insulation.into_iter().chain(["any".to_owned()])),
                ),
                ("fuse", unique(stock.fuses.iter().map(|f| f.name.clone()))),
                ("relay", unique(stock.relays.iter().map(|r| r.name.clone()))),
                (
                    "switch",
                    unique(stock.switches.iter().map(|s| s.name.clone())),
                ),
                (
                    "wire",
                    unique(stock.conductors.iter().map(|c| c.wall.clone())),
                ),
            ],
        }
    }

    pub fn names(&self, of: Of) -> Vec<String> {
        match of {
            Of::Place => self.places.clone(),
            Of::Feed => self.feeds.clone(),
            Of::Box => self.boxes.clone(),
            Of::Earth => self.earths.clone(),
            Of::Signal => self.signals.clone(),
            Of::Circuit => self.circuits.clone(),
        }
    }

    pub fn stocked(&self, of: &str) -> &[String] {
        let found = self.stock.iter().find(|(key, _)| *key == of);
        found.map_or(&[], |(_, names)| names)
    }

    /// What fields suggest from.
    pub fn lists(&self) -> Markup {
        html! {
            @for (of, names) in &self.stock {
                datalist id={ "stock-" (of) } { @for name in names { option value=(name) {} } }
            }
        }
    }
}
