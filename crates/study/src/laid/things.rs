//! How wide each thing is that must go through a panel: what is on a wire's end, and what hangs on it beyond.

use crate::design::Design;
use crate::fit::{Fit, Termination, WireEnd, at, terminal_words};
use crate::laying::Laying;
use finding::joined;
use loom::{PartId, PartKind, PinId, WireId};
use quantity::Quantity;
use std::collections::BTreeSet;

/// Something that is to go through, with the wires that lie in the hole once it has.
#[derive(Clone, Debug)]
pub(super) struct Thing {
    /// Its wires in the hole.
    pub wires: Vec<WireId>,
    /// Wires that hang on them beyond, through a joint.
    pub hang: Vec<WireId>,
    /// In words.
    pub what: String,
    /// Its widest made up, m; none where it can't be made up before.
    pub whole: Option<f64>,
    /// Its widest with connectors' housings left off, m, if there are any.
    pub bare: Option<f64>,
}

/// The ends that go through, taken together where they share a connector's half or a terminal.
pub(super) struct Ends<'a, 'd> {
    pub d: &'a Design<'d>,
    pub table: &'a Laying,
    pub fit: &'a Fit,
    /// The wires in the hole, each with the end that goes through.
    pub through: Vec<(WireId, usize)>,
}

/// What several ends are told as one by: the pin, or the half of a connector.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Group {
    /// A terminal of one wire's own, though others may lie on the same stud.
    Own(WireId),
    Pin(PinId),
    Half(PartId, bool),
}

impl Ends<'_, '_> {
    fn end(&self, (wire, end): (WireId, usize)) -> &WireEnd {
        &self.fit.ends[wire.0 as usize][end]
    }

    /// The things that go through.
    pub fn things(&self) -> Vec<Thing> {
        let mut groups: Vec<(Group, Vec<(WireId, usize)>)> = Vec::new();
        for at in &self.through {
            let group = self.group(*at);
            match groups.iter_mut().find(|(g, _)| *g == group) {
                Some((_, ends)) => ends.push(*at),
                None => groups.push((group, vec![*at])),
            }
        }
        let each = groups.into_iter();
        each.map(|(group, ends)| self.thing(group, &ends)).collect()
    }

    fn group(&self, at: (WireId, usize)) -> Group {
        let end = self.end(at);
        match end.gets {
            Termination::Contact { plug, .. } => Group::Half(plug, self.live(end.pin)),
            Termination::Shared(_) => Group::Pin(end.pin),
            _ => Group::Own(at.0),
        }
    }

    fn live(&self, pin: PinId) -> bool {
        self.d.loom.mates.iter().any(|m| m.live == pin)
    }

    fn thing(&self, group: Group, ends: &[(WireId, usize)]) -> Thing {
        let wires: Vec<WireId> = ends.iter().map(|(w, _)| *w).collect();
        let end = self.end(ends[0]);
        let mut met: BTreeSet<WireId> = wires.iter().copied().collect();
        let (whole, first) = self.widest(ends[0], &mut met);
        // Of several contacts the widest counts.
        let half = matches!(group, Group::Half(..));
        let others = ends[1..].iter().filter(|_| half);
        let others = others.map(|at| self.widest(*at, &mut met).1);
        let bare = others.fold(first, |most, other| Some(most?.max(other?)));
        let part = self.d.loom.part_of(end.pin);
        let mut what = match group {
            Group::Half(plug, _) => format!("{}’s half", self.d.loom.part(plug).name),
            Group::Pin(_) | Group::Own(_) => match (&end.gets, &part.kind) {
                (_, PartKind::Load(_) | PartKind::Signal(_)) => {
                    format!("joined to {}’s own lead there", part.name)
                }
                (Termination::Terminal(t) | Termination::Shared(t), _) => {
                    let pin = self.d.loom.pin_name(end.pin);
                    format!("{pin}: {}", terminal_words(&self.d.stock.terminals[*t]))
                }
                (Termination::Its(what) | Termination::Nothing(what), _) => what.clone(),
                (Termination::Contact { .. }, _) => String::new(),
            },
        };
        let hang: Vec<WireId> = met.iter().copied().filter(|w| !wires.contains(w)).collect();
        let hanging = hang.iter();
        let hanging: Vec<&str> = hanging
            .map(|w| self.d.loom.wire(*w).name.as_str())
            .collect();
        if !hanging.is_empty() {
            what += &format!(", with {} and what is on their ends", joined(&hanging));
        }
        // A joint to a load's own lead is made there.
        let there = matches!(part.kind, PartKind::Load(_) | PartKind::Signal(_));
        Thing {
            wires,
            hang,
            what,
            whole: whole.filter(|_| !there),
            bare: bare.filter(|_| !there),
        }
    }

    /// The widest of an end and of all that hangs on it beyond, made up, and the same with housings left off; none where
    /// something can't go through made up. A lead that is joined on the vehicle goes through as bare wire.
    fn widest(
        &self,
        at_end: (WireId, usize),
        met: &mut BTreeSet<WireId>,
    ) -> (Option<f64>, Option<f64>) {
        let (d, end) = (self.d, self.end(at_end));
        let own = d.conductor(at_end.0).outside_d.si();
        let part = d.loom.part_of(end.pin);
        match &end.gets {
            _ if matches!(part.kind, PartKind::Load(_) | PartKind::Signal(_)) => (Some(own), None),
            Termination::Terminal(t) => {
                let across = d.stock.terminals[*t].across.map(|a| a.si());
                (across.map(|a| a.max(own)), None)
            }
            Termination::Shared(t) => {
                let across = d.stock.terminals[*t].across.map(|a| a.si());
                let mut found = (across.map(|a| a.max(own)), across.map(|a| a.max(own)));
                let mut housed = false;
                for wire in at(d.loom, end.pin).collect::<Vec<_>>() {
                    if !met.insert(wire) {
                        continue;
                    }
                    let w = d.loom.wire(wire);
                    // From the shared pin on to the other end.
                    let other = usize::from(w.from == end.pin);
                    let (whole, bare) = self.widest((wire, other), met);
                    housed |= bare.is_some();
                    let wider = |a: Option<f64>, b: Option<f64>| Some(a?.max(b?));
                    found = (wider(found.0, whole), wider(found.1, bare.or(whole)));
                }
                (found.0, found.1.filter(|_| housed))
            }
            Termination::Contact { plug, seal } => {
                let contact = self.contact(at_end.0, *plug, seal.is_some());
                (self.housed(*plug, self.live(end.pin), met), contact)
            }
            Termination::Its(_) | Termination::Nothing(_) => (None, None),
        }
    }

    /// A contact, with its seal.
    fn contact(&self, wire: WireId, plug: PartId, sealed: bool) -> Option<f64> {
        let class = self.fit.class(self.d.stock, plug)?;
        let blade = (class.contact_mm + self.table.value("contact over its blade")) * 1e-3;
        let over = self.table.value("seal over its wire") * 1e-3;
        let wire = self.d.conductor(wire).outside_d.si();
        Some(blade.max(if sealed { wire + over } else { wire }))
    }

    /// A half of a connector with its housing on, if all its wires come this way.
    fn housed(&self, plug: PartId, live: bool, met: &mut BTreeSet<WireId>) -> Option<f64> {
        let its = self.fit.plugs.iter().find(|p| p.part == plug)?;
        let (class, ways) = its.class.as_ref().ok()?;
        let across = self.d.stock.connectors[*class].across(*ways)?.si();
        let here = |pin: PinId| {
            let mates = self.d.loom.mates.iter();
            let mut half = mates.map(|m| if live { m.live } else { m.far });
            self.d.loom.pin(pin).part == plug && half.any(|p| p == pin)
        };
        let on_it = self.d.loom.each_wire();
        let mut on_it = on_it.filter(|(_, w)| here(w.from) || here(w.to));
        let in_hole = |w: &WireId| self.through.iter().any(|(t, _)| t == w);
        let all = on_it.all(|(id, _)| met.contains(&id) || in_hole(&id));
        all.then_some(across)
    }
}
