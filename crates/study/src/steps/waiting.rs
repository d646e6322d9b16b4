//! Ends that can't be finished at the bench: made up they would not pass a panel on their way.

use super::Work;
use crate::laid::How;
use loom::{StretchId, WireId};
use std::collections::BTreeMap;

/// By wire and end (0 its source): the worst of the panels on its way, and what it asks for.
pub(super) struct Waiting {
    ends: BTreeMap<(WireId, usize), (How, StretchId)>,
}

impl Waiting {
    pub fn new(w: Work) -> Self {
        let mut ends: BTreeMap<(WireId, usize), (How, StretchId)> = BTreeMap::new();
        for passing in &w.lists.passings {
            for pass in &passing.passes {
                for id in &pass.wires {
                    let wire = w.loom.wire(*id);
                    let Some(at) = wire.stretches.iter().position(|s| *s == passing.stretch) else {
                        continue;
                    };
                    let end = usize::from(wire.places[at + 1] == passing.towards);
                    let worst = ends
                        .entry((*id, end))
                        .or_insert((pass.how, passing.stretch));
                    if pass.how > worst.0 {
                        *worst = (pass.how, passing.stretch);
                    }
                }
            }
        }
        Self { ends }
    }

    fn how(&self, end: (WireId, usize)) -> How {
        self.ends.get(&end).map_or(How::Whole, |(how, _)| *how)
    }

    /// It is crimped behind the panel.
    pub fn crimp(&self, end: (WireId, usize)) -> bool {
        self.how(end) == How::CrimpAfter
    }

    /// Its contact goes into the housing behind the panel.
    pub fn housing(&self, end: (WireId, usize)) -> bool {
        matches!(self.how(end), How::HousingAfter | How::CrimpAfter)
    }

    /// The panels whose grommet must be on some wires before these are crimped, with the wires.
    pub fn grommets(&self) -> BTreeMap<StretchId, Vec<WireId>> {
        let mut found: BTreeMap<StretchId, Vec<WireId>> = BTreeMap::new();
        for ((wire, _), (how, stretch)) in &self.ends {
            if *how == How::GrommetFirst {
                found.entry(*stretch).or_default().push(*wire);
            }
        }
        for wires in found.values_mut() {
            wires.sort();
            wires.dedup();
        }
        found
    }
}
