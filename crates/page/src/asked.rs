//! What an address asks to see: a state (`supply=idling&on=0.2&auto=1&signal=7`), a fault in it (`fault=wire-to-body&at=W1.7`),
//! which entry of the plan is open, what stands beside it, what is to be found on the drawing. Circuits and signals by their
//! numbers in the loom; what is not there is passed over.

use job::Loom;
use job::loom::PartId;
use job::study::{self, Chosen, Position, SupplyState};
use std::collections::BTreeMap;

/// What an address may say, in the order in which it is written.
const KEYS: [&str; 10] = [
    "supply", "on", "auto", "signal", "fault", "at", "edit", "beside", "find", "why",
];

/// What an address asks for.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub(crate) struct Asked(BTreeMap<&'static str, String>);

/// What stands beside the plan.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Beside {
    Circuit,
    Vehicle,
    Text,
}

impl Beside {
    pub const WORDS: [(&'static str, &'static str, Self); 3] = [
        ("circuit", "the circuit", Self::Circuit),
        ("vehicle", "the vehicle", Self::Vehicle),
        ("text", "the text", Self::Text),
    ];
}

/// A text as a part of an address.
pub(crate) fn encoded(text: &str) -> String {
    let byte = |b: u8| match b {
        b'a'..=b'z' | b'A'..=b'Z' | b'0'..=b'9' | b'.' | b'-' | b'_' => char::from(b).to_string(),
        _ => format!("%{b:02X}"),
    };
    text.bytes().map(byte).collect()
}

fn numbers(text: Option<&str>) -> impl Iterator<Item = usize> + '_ {
    let each = text.unwrap_or_default().split('.');
    each.filter_map(|n| n.parse().ok())
}

impl Asked {
    /// From the pairs of an address.
    pub fn read(query: &BTreeMap<String, String>) -> Self {
        let known = KEYS.iter().filter_map(|key| {
            let value = query.get(*key).filter(|v| !v.is_empty())?;
            Some((*key, value.clone()))
        });
        Self(known.collect())
    }

    /// What it says under a key.
    pub fn get(&self, key: &str) -> Option<&str> {
        self.0.get(key).map(String::as_str)
    }

    /// The same with something said otherwise, or no longer.
    pub fn with(&self, key: &'static str, value: Option<&str>) -> Self {
        let mut next = self.clone();
        match value {
            Some(value) => next.0.insert(key, value.to_owned()),
            None => next.0.remove(key),
        };
        next
    }

    /// Its address, from the page that is looked at: "?supply=idling".
    pub fn href(&self) -> String {
        let said = KEYS.iter().filter_map(|k| Some((k, self.0.get(k)?)));
        let pairs: Vec<String> = said.map(|(k, v)| format!("{k}={}", encoded(v))).collect();
        format!("?{}", pairs.join("&"))
    }

    /// What stands beside the plan.
    pub fn beside(&self) -> Beside {
        let said = self.get("beside");
        let known = Beside::WORDS.iter().find(|(w, ..)| Some(*w) == said);
        known.map_or(Beside::Circuit, |(.., b)| *b)
    }

    /// What is to be found on the drawing.
    pub fn find(&self) -> Vec<String> {
        let said = self.get("find").unwrap_or_default();
        let each = said.split('|').filter(|n| !n.is_empty());
        each.map(str::to_owned).collect()
    }

    /// The state that it asks for.
    pub fn chosen(&self, loom: &Loom) -> Chosen {
        let mut chosen = Chosen::at_rest(loom);
        let supply = self.get("supply").map(|word| word.replace('-', " "));
        let known = |(word, _): &&(&str, SupplyState)| Some(*word) == supply.as_deref();
        if let Some((_, state)) = SupplyState::WORDS.iter().find(known) {
            chosen.supply = *state;
        }
        for (key, position) in [("on", Position::On), ("auto", Position::Auto)] {
            for circuit in numbers(self.get(key)) {
                let three = loom.circuits.get(circuit).is_some_and(|c| c.auto.is_some());
                if let Some(at) = chosen.positions.get_mut(circuit)
                    && (three || position == Position::On)
                {
                    *at = position;
                }
            }
        }
        let signals = numbers(self.get("signal")).filter(|n| *n < loom.parts.len());
        let signals = signals.filter_map(|n| u32::try_from(n).ok());
        chosen.signals = signals.map(PartId).collect();
        chosen
    }

    /// The same in another state.
    pub fn in_state(&self, chosen: &Chosen) -> Self {
        let at = |wanted: Position| {
            let each = chosen.positions.iter().enumerate();
            let those = each.filter(|(_, p)| **p == wanted);
            those
                .map(|(i, _)| i.to_string())
                .collect::<Vec<_>>()
                .join(".")
        };
        let signals: Vec<String> = chosen.signals.iter().map(|s| s.0.to_string()).collect();
        let mut next = self.clone();
        let supply = chosen.supply.word().replace(' ', "-");
        for (key, said) in [
            ("supply", supply),
            ("on", at(Position::On)),
            ("auto", at(Position::Auto)),
            ("signal", signals.join(".")),
        ] {
            next = next.with(key, Some(said.as_str()).filter(|s| !s.is_empty()));
        }
        next
    }

    /// The kind of fault that it asks for; one that there is not is none.
    pub fn fault(&self) -> Option<&str> {
        let known = |kind: &&str| study::FAULTS.iter().any(|f| f.id == *kind);
        self.get("fault").filter(known)
    }
}

/// The same state on another supply.
pub(crate) fn on_supply(chosen: &Chosen, supply: SupplyState) -> Chosen {
    Chosen {
        supply,
        ..chosen.clone()
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn farm() -> job::Job {
        let text = include_str!("../../../examples/farm.toml").to_owned();
        let name = "farm.toml".to_owned();
        job::Job::read(job::Source { name, text }, Vec::new())
    }

    fn query(address: &str) -> BTreeMap<String, String> {
        let pairs = address.split_once('?').map_or("", |(_, q)| q).split('&');
        let pair = |p: &str| p.split_once('=').map(|(k, v)| (k.to_owned(), v.to_owned()));
        pairs.filter_map(pair).collect()
    }

    #[test]
    fn an_address_leads_back_to_what_it_was_made_of() {
        let job = farm();
        let loom = job.loom().unwrap();
        let chosen = Chosen {
            supply: SupplyState::KeyOn,
            positions: vec![Position::Off, Position::On],
            signals: Vec::new(),
        };
        let asked = Asked::default()
            .in_state(&chosen)
            .with("edit", Some("box[a b]"));
        assert_eq!(asked.href(), "?supply=key-on&on=1&edit=box%5Ba%20b%5D");
        assert_eq!(asked.chosen(loom), chosen);
    }

    #[test]
    fn what_is_not_there_is_passed_over() {
        let job = farm();
        let loom = job.loom().unwrap();
        let odd =
            query("?supply=flying&on=99.x.-1&auto=0.0.0&signal=4294967296.88888&more=1&fault=none");
        let asked = Asked::read(&odd);
        let chosen = asked.chosen(loom);
        assert_eq!(chosen.supply, SupplyState::Parked);
        assert!(chosen.signals.is_empty() && !asked.href().contains("more"));
        assert_eq!(asked.fault(), None);
        // A position that a switch has not is not taken.
        assert_eq!(chosen, Chosen::at_rest(loom));
        assert!(job.look(&chosen).is_some());
    }
}
