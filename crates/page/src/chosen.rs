//! A chosen state as an address: `supply=idling&on=0.2&auto=1&signal=7`. Circuits and signals by their numbers in the
//! loom; what is not there is off.

use job::loom::PartId;
use job::study::{Chosen, Position, SupplyState};
use job::{Loom, study};
use std::collections::BTreeMap;

fn numbers(text: Option<&String>) -> impl Iterator<Item = usize> + '_ {
    let each = text.map_or("", String::as_str).split('.');
    each.filter_map(|n| n.parse().ok())
}

/// What an address asks for; what it says that is not there is passed over.
pub(crate) fn read(loom: &Loom, query: &BTreeMap<String, String>) -> Chosen {
    let mut chosen = Chosen::at_rest(loom);
    let supply = query.get("supply").map(|word| word.replace('-', " "));
    if let Some((_, state)) = SupplyState::WORDS
        .iter()
        .find(|(word, _)| Some(*word) == supply.as_deref())
    {
        chosen.supply = *state;
    }
    for (key, position) in [("on", Position::On), ("auto", Position::Auto)] {
        for circuit in numbers(query.get(key)) {
            if let Some(at) = chosen.positions.get_mut(circuit) {
                *at = position;
            }
        }
    }
    let signals = numbers(query.get("signal")).filter(|n| *n < loom.parts.len());
    chosen.signals = signals
        .filter_map(|n| u32::try_from(n).ok())
        .map(PartId)
        .collect();
    chosen
}

/// Its address.
pub(crate) fn href(chosen: &Chosen) -> String {
    let at = |wanted: Position| {
        let each = chosen.positions.iter().enumerate();
        let those = each
            .filter(|(_, p)| **p == wanted)
            .map(|(i, _)| i.to_string());
        those.collect::<Vec<_>>().join(".")
    };
    let signals: Vec<String> = chosen.signals.iter().map(|s| s.0.to_string()).collect();
    let mut out = format!("/live?supply={}", chosen.supply.word().replace(' ', "-"));
    for (key, list) in [
        ("on", at(Position::On)),
        ("auto", at(Position::Auto)),
        ("signal", signals.join(".")),
    ] {
        if !list.is_empty() {
            out += &format!("&{key}={list}");
        }
    }
    out
}

/// A fault as an address asks for it: its kind, and where.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub(crate) struct Fault {
    pub kind: Option<String>,
    pub at: Option<String>,
}

impl Fault {
    /// What an address asks for; a kind that there is not is none.
    pub fn read(query: &BTreeMap<String, String>) -> Self {
        let kind = query.get("fault");
        let kind = kind.filter(|k| study::FAULTS.iter().any(|f| f.id == k.as_str()));
        Self {
            kind: kind.cloned(),
            at: query.get("at").cloned(),
        }
    }

    /// An address with it. Names of wires and parts are letters, figures and points; anything else is left out.
    pub fn added(&self, address: &str) -> String {
        let plain = |c: &char| c.is_ascii_alphanumeric() || matches!(c, '.' | '-' | '_');
        let mut out = address.to_owned();
        for (key, value) in [("fault", &self.kind), ("at", &self.at)] {
            if let Some(value) = value {
                let value: String = value.chars().filter(plain).collect();
                out += &format!("&{key}={value}");
            }
        }
        out
    }
}

/// The same on another supply.
pub(crate) fn on_supply(chosen: &Chosen, supply: SupplyState) -> Chosen {
    study::Chosen {
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
        assert_eq!(href(&chosen), "/live?supply=key-on&on=1");
        assert_eq!(read(loom, &query(&href(&chosen))), chosen);
    }

    #[test]
    fn what_is_not_there_is_passed_over() {
        let job = farm();
        let loom = job.loom().unwrap();
        let odd = query("/live?supply=flying&on=99.x.-1&auto=0.0.0&signal=4294967296.88888");
        let chosen = read(loom, &odd);
        assert_eq!(chosen.supply, SupplyState::Parked);
        assert!(chosen.signals.is_empty());
        // And a position that a switch has not is put right when it is solved.
        assert!(job.look(&chosen).is_some());
    }
}
