//! Ends that can't be finished at the bench, since made up they would not pass a panel on their way; sleeves that can't be on
//! before the loom is through; where the loom is laid from.

use super::Work;
use crate::laid::How;
use loom::{PinId, PlaceId, StretchId, WireId};
use std::collections::{BTreeMap, BTreeSet};

/// What waits.
pub(super) struct Waiting {
    /// By wire and end (0 its source): the most that a panel on its way asks for.
    ends: BTreeMap<(WireId, usize), How>,
    /// The panels whose grommet must be on some wires before these are crimped, with the wires.
    pub grommets: BTreeMap<StretchId, Vec<WireId>>,
    /// Stretches whose sleeve would not pass a panel.
    pub late: BTreeSet<StretchId>,
    /// The place from which the loom goes outwards, where it passes any panel.
    pub from: Option<PlaceId>,
}

impl Waiting {
    pub fn new(w: Work) -> Self {
        let mut found = Self {
            ends: BTreeMap::new(),
            grommets: BTreeMap::new(),
            late: BTreeSet::new(),
            from: None,
        };
        let mut behind: BTreeSet<PlaceId> = BTreeSet::new();
        for passing in &w.lists.passings {
            for pass in &passing.passes {
                for id in &pass.wires {
                    let wire = w.loom.wire(*id);
                    let Some(at) = wire.stretches.iter().position(|s| *s == passing.stretch) else {
                        continue;
                    };
                    let end = usize::from(wire.places[at + 1] == passing.towards);
                    found.wait((*id, end), pass.how);
                }
                // What hangs on a joint beyond goes through with it: its housings wait, its crimps do not.
                for id in &pass.hang {
                    let how = pass.how.min(How::HousingAfter);
                    for end in [0, 1] {
                        found.wait((*id, end), how);
                    }
                }
                if pass.how == How::GrommetFirst {
                    let on = found.grommets.entry(passing.stretch).or_default();
                    on.extend(&pass.wires);
                }
            }
            let beyond = beyond(w, passing.stretch, passing.towards);
            let stretches = w.loom.stretches.iter().enumerate();
            let inside = stretches.filter(|(_, s)| s.ends.iter().all(|p| beyond.contains(p)));
            found.late.extend(inside.map(|(i, _)| StretchId(i as u32)));
            found.late.insert(passing.stretch);
            behind.extend(beyond);
        }
        if !w.lists.passings.is_empty() {
            let used = w.loom.stretches.iter().filter(|s| !s.wires.is_empty());
            let mut places: Vec<PlaceId> = used.flat_map(|s| s.ends).collect();
            places.sort();
            found.from = places.into_iter().find(|p| !behind.contains(p));
        }
        found
    }

    fn wait(&mut self, end: (WireId, usize), how: How) {
        let most = self.ends.entry(end).or_insert(how);
        *most = how.max(*most);
    }

    fn how(&self, end: (WireId, usize)) -> How {
        self.ends.get(&end).copied().unwrap_or(How::Whole)
    }

    /// It is crimped behind the panel.
    pub fn crimp(&self, end: (WireId, usize)) -> bool {
        self.how(end) == How::CrimpAfter
    }

    /// Its contact goes into the housing behind the panel.
    pub fn housing(&self, end: (WireId, usize)) -> bool {
        matches!(self.how(end), How::HousingAfter | How::CrimpAfter)
    }

    /// Some wire at a pin, crimped together with the others there, is crimped behind a panel.
    pub fn together(&self, w: Work, pin: PinId) -> bool {
        let mut wires = w.loom.each_wire();
        wires.any(|(id, wire)| {
            (wire.from == pin && self.crimp((id, 0))) || (wire.to == pin && self.crimp((id, 1)))
        })
    }
}

/// The places beyond a panel.
fn beyond(w: Work, panel: StretchId, towards: PlaceId) -> BTreeSet<PlaceId> {
    let mut seen = BTreeSet::from([towards]);
    let mut open = vec![towards];
    while let Some(place) = open.pop() {
        for (i, s) in w.loom.stretches.iter().enumerate() {
            if StretchId(i as u32) == panel || s.wires.is_empty() || !s.ends.contains(&place) {
                continue;
            }
            open.extend(s.ends.into_iter().filter(|p| seen.insert(*p)));
        }
    }
    seen
}
